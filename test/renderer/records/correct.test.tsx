/** A record that was wrong is put right as one step: the wrong one reversed, the right one written, and one undo for both. */
import "../with-dom.ts";
import { act, screen, waitFor } from "@testing-library/react";
import { useEffect, useState } from "react";
import { afterEach, beforeEach, expect, it } from "vitest";
import type { JournalEntry, Reading } from "../../../app/ledger/journal.ts";
import { EntryDialog, isCorrectable } from "../../../renderer/records/entry-record.tsx";
import { CorrectReadingDialog } from "../../../renderer/records/reading-record.tsx";
import { levelNow } from "../../../renderer/state/tank-now.ts";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

type Wrong = { readonly entry: JournalEntry } | { readonly reading: Reading } | null;
const stage: { show: (wrong: Wrong) => void } = { show: () => undefined };
const Shown = () => {
  const [wrong, setWrong] = useState<Wrong>(null);
  useEffect(() => {
    stage.show = setWrong;
  }, []);
  const close = (): void => setWrong(null);
  if (wrong === null) return null;
  return "entry" in wrong ? (
    <EntryDialog request={{ action: "record.entry", subject: null, at: null }} wrong={wrong.entry} close={close} />
  ) : (
    <CorrectReadingDialog reading={wrong.reading} close={close} />
  );
};

let page: Awaited<ReturnType<typeof openPage>>;
beforeEach(async () => {
  withoutPictures();
  page = await openPage(<Shown />);
});
afterEach(() => page.close());

const TANK = "tarn-hydrogen";
const level = (): number => levelNow(page.plan(), TANK);
const type = async (name: string, text: string): Promise<void> => {
  const field = screen.getByRole("textbox", { name });
  await page.user.clear(field);
  await page.user.type(field, `${text}{Tab}`);
};

it("a vent of 100 kg that was 10 kg: the tank has 90 kg more, with the reason, and undo brings the 100 back", async () => {
  const before = level();
  const { asOfAt } = page.plan();
  const posted = await page.session.command("record.entry", {
    id: "vent-1",
    at: asOfAt,
    kind: "vent",
    subjectKey: null,
    note: "relief valve",
    postings: [
      { account: { kind: "tank", ownerId: TANK }, propellantId: "hydrogen", grams: -100_000 },
      { account: { kind: "vented", ownerId: "tarn" }, propellantId: "hydrogen", grams: 100_000 },
    ],
  });
  expect(posted).toMatchObject({ ok: true });
  expect(before - level()).toBeCloseTo(100, 6);
  const entry = await page.session.ask("journal.entry", { entryId: "vent-1" });
  if (entry === null) throw new Error("no entry");
  expect(isCorrectable(entry)).toBe(true);
  act(() => stage.show({ entry }));
  const button = await screen.findByRole("button", { name: "Correct entry" });
  expect(screen.getByRole<HTMLInputElement>("textbox", { name: "Mass" }).value).toBe("100");
  await type("Mass", "10");
  expect(button.hasAttribute("aria-disabled")).toBe(true);
  await type("Why", "a zero too many");
  const revision = page.revision();
  await page.user.click(button);
  await page.saved(revision);
  expect(before - level()).toBeCloseTo(10, 6);
  expect(page.store.get().ledger?.undoLabel).toMatch(/^Correct: Reverse vent; Write a vent/);
  await page.session.undo();
  expect(before - level()).toBeCloseTo(100, 6);
});

it("a misread level: the old reading stays, withdrawn; the new one is in the books; undo puts both back", async () => {
  const last = page.store
    .get()
    .current?.view.readings.filter(({ tankId, isWithdrawn }) => tankId === TANK && !isWithdrawn)
    .toSorted((a, b) => a.at - b.at)
    .at(-1);
  if (last === undefined) throw new Error("no reading");
  const before = level();
  act(() => stage.show({ reading: last }));
  await screen.findByRole("button", { name: "Correct reading" });
  await type("Level", String(Math.round(last.massKg) + 40));
  await type("Why", "read from the wrong gauge");
  const revision = page.revision();
  await waitFor(() =>
    expect(screen.getByRole("button", { name: "Correct reading" }).hasAttribute("aria-disabled")).toBe(false),
  );
  await page.user.click(screen.getByRole("button", { name: "Correct reading" }));
  await page.saved(revision);
  const readings = page.store.get().current?.view.readings ?? [];
  expect(readings.find(({ id }) => id === last.id)?.isWithdrawn).toBe(true);
  expect(
    readings.filter(({ tankId, at, isWithdrawn }) => tankId === TANK && at === last.at && !isWithdrawn),
  ).toMatchObject([{ massKg: Math.round(last.massKg) + 40, sigmaKg: last.sigmaKg }]);
  expect(level() - before).toBeCloseTo(Math.round(last.massKg) + 40 - last.massKg, 3);
  await page.session.undo();
  expect(level()).toBeCloseTo(before, 6);
  expect(page.store.get().current?.view.readings.find(({ id }) => id === last.id)?.isWithdrawn).toBe(false);
});
