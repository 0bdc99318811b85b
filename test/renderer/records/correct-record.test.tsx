/** A record of a flight or sortie put right in its own form: begun with what was recorded, seen before it is written, undone as one. */
import "../with-dom.ts";
import { act, screen, waitFor, within } from "@testing-library/react";
import { useEffect, useState } from "react";
import { afterEach, beforeEach, expect, it } from "vitest";
import type { Flight } from "../../../app/entity/flight.ts";
import type { EntryKind } from "../../../app/ledger/journal.ts";
import { CorrectRecordDialog } from "../../../renderer/records/correct-record.tsx";
import { wholeJournal } from "../../../renderer/journal/journal-filter.ts";
import { RecordButtons } from "../../../renderer/inspector/record-buttons.tsx";
import { levelNow } from "../../../renderer/state/tank-now.ts";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

const stage: { show: (entryId: string | null) => void; flight: (flight: Flight) => void } = {
  show: () => undefined,
  flight: () => undefined,
};
const Shown = () => {
  const [entryId, setEntryId] = useState<string | null>(null);
  const [flight, setFlight] = useState<Flight | null>(null);
  useEffect(() => {
    stage.show = setEntryId;
    stage.flight = setFlight;
  }, []);
  if (flight !== null) return <RecordButtons kind="flight" row={flight} />;
  return entryId === null ? null : <CorrectRecordDialog entryId={entryId} close={() => setEntryId(null)} />;
};

let page: Awaited<ReturnType<typeof openPage>>;
beforeEach(async () => {
  withoutPictures();
  page = await openPage(<Shown />);
});
afterEach(() => page.close());

const standing = async (kind: EntryKind, subjectKey: string): Promise<string> => {
  const found = await page.session.ask("journal.page", { ...wholeJournal, subjectKey });
  const entry = found?.entries.find((row) => row.kind === kind);
  if (entry === undefined) throw new Error(`no ${kind} of ${subjectKey}`);
  return entry.id;
};
const field = (name: string | RegExp): HTMLInputElement => screen.getByRole<HTMLInputElement>("textbox", { name });
const type = async (name: string, text: string): Promise<void> => {
  await page.user.clear(field(name));
  await page.user.type(field(name), `${text}{Tab}`);
};
const isUnable = (name: string): boolean =>
  screen.getByRole("button", { name }).getAttribute("aria-disabled") === "true";
const write = async (name: string): Promise<void> => {
  await waitFor(() => expect(isUnable(name)).toBe(false));
  const revision = page.revision();
  await page.user.click(screen.getByRole("button", { name }));
  await page.saved(revision);
};
const balance = async (ownerId: string): Promise<number> => {
  const found = await page.session.ask("journal.page", { ...wholeJournal, accountKind: "in-flight loss", ownerId });
  return found?.sums.find(({ propellantId }) => propellantId === "hydrogen")?.grams ?? 0;
};

it("an arrival’s mass: the counter-entry, the new one and the levels are seen first, and undo takes both back", async () => {
  const id = await standing("arrival", "packhorse-2");
  const flight = page.plan().flights.find(({ key }) => key === "packhorse-2");
  const lostBefore = await balance(flight?.craftId ?? "");
  const levelBefore = levelNow(page.plan(), "tarn-hydrogen");
  act(() => stage.show(id));
  await screen.findByRole("dialog", { name: "Correct arrival of Packhorse 2" });
  const was = Number(field("Tarn hydrogen").value.replaceAll(/\s/g, ""));
  expect(was).toBeGreaterThan(1000);
  await page.user.type(field("Why"), "read from the wrong gauge{Tab}");
  // Nothing differs yet.
  expect(isUnable("Correct arrival")).toBe(true);
  // A comma that has two meanings is asked about, and nothing is taken meanwhile.
  await type("Tarn hydrogen", "1,500");
  expect(screen.getByText(/“1,500” can mean/)).toBeDefined();
  await type("Tarn hydrogen", String(was - 100));
  const both = within(await screen.findByRole("table", { name: "Arrival: Packhorse 2, in kg" }));
  expect(both.getByRole("columnheader", { name: /^Reversed/ })).toBeDefined();
  // The tank is given back what it got, and gets a hundred less.
  const ofTank = await waitFor(() => both.getByRole("row", { name: /^Tarn hydrogen .*−1\s930\.400 \+1\s830\.400$/ }));
  expect(ofTank.hasAttribute("data-changed")).toBe(true);
  expect(both.getByRole("row", { name: /^Tarn oxygen/ }).hasAttribute("data-changed")).toBe(false);
  await waitFor(() =>
    expect(screen.getByText(/^Booked anew, as what lies before it changes: Gauge reading/)).toBeDefined(),
  );
  const levels = within(screen.getByRole("table", { name: "Levels, in kg" }));
  await waitFor(() => expect(levels.getAllByText("−100.000").length).toBe(1));
  expect(levels.getAllByText("as it was").length).toBeGreaterThan(0);
  await write("Correct arrival");
  // The gauge read since stands; the hundred are lost on the way.
  expect(levelNow(page.plan(), "tarn-hydrogen")).toBeCloseTo(levelBefore, 3);
  expect((await balance(flight?.craftId ?? "")) - lostBefore).toBe(100_000);
  expect(page.store.get().ledger?.undoLabel).toBe("Correct arrival of Packhorse 2");
  await page.session.undo();
  expect(await balance(flight?.craftId ?? "")).toBe(lostBefore);
});

it("a departure’s date: the flight leaves and arrives later; one whose flight has arrived says what to do first", async () => {
  const before = page.plan().flights.find(({ key }) => key === "drover-2");
  act(() => stage.show(null));
  const id = await standing("departure", "drover-2");
  act(() => stage.show(id));
  await screen.findByRole("dialog", { name: "Correct departure of Drover 2" });
  const [date = ""] = field("Departed").value.split(" ");
  const later = new Date(Date.parse(`${date}T00:00Z`) - 86_400_000).toISOString().slice(0, 10);
  await type("Departed", field("Departed").value.replace(date, later));
  await page.user.type(field("Why"), "a day out{Tab}");
  await write("Correct departure");
  const after = page.plan().flights.find(({ key }) => key === "drover-2");
  expect((after?.departAt ?? 0) - (before?.departAt ?? 0)).toBe(-86_400_000);
  expect((after?.arriveAt ?? 0) - (before?.arriveAt ?? 0)).toBe(-86_400_000);
  expect(page.store.get().ledger?.undoLabel).toBe("Correct departure of Drover 2");
  await page.session.undo();
  const settled = await standing("departure", "packhorse-1");
  act(() => stage.show(settled));
  const dialog = within(await screen.findByRole("dialog", { name: "This record cannot be corrected yet" }));
  expect(dialog.getByText(/Packhorse 1 arrived by a later record .* Reverse that one first/)).toBeDefined();
  await page.user.click(dialog.getByRole("button", { name: "Show that record" }));
  const arrival = await standing("arrival", "packhorse-1");
  await waitFor(() => expect(page.store.get().selection).toEqual({ kind: "entry", id: arrival }));
});

it("from the flight itself, by keyboard: the record that made it what it is", async () => {
  const flight = page.plan().flights.find(({ key }) => key === "packhorse-2");
  if (flight === undefined) throw new Error("no flight");
  act(() => stage.flight(flight));
  const button = await screen.findByRole("button", { name: "Correct its arrival…" });
  button.focus();
  await page.user.keyboard("{Enter}");
  await screen.findByRole("dialog", { name: "Correct arrival of Packhorse 2" });
  await page.user.keyboard("{Escape}");
  await waitFor(() => expect(screen.queryByRole("dialog")).toBeNull());
});
