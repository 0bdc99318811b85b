/** The month on one sheet: what is missing, the books beside each level and the difference in σ while typing, what comes then. */
import "../with-dom.ts";
import { screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, expect, it } from "vitest";
import { ClosingDialog } from "../../../renderer/records/closing-record.tsx";
import { differenceWords, sigmasOff, unexplainedWords } from "../../../renderer/records/month-end.ts";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

let page: Awaited<ReturnType<typeof openPage>>;
beforeEach(async () => {
  localStorage.clear();
  withoutPictures();
  page = await openPage(
    <ClosingDialog
      request={{ action: "record.closing", subject: null, at: null }}
      close={() => page.session.closeDialog()}
    />,
  );
});
afterEach(() => page.close());

const saidAt = (field: HTMLElement): string => field.closest(".form-row")?.textContent ?? "";

it("a difference is told in σ of the gauge, and as unexplained beyond three of them", () => {
  // By hand: 5,150 kg measured, 5,000 kg in the books, 50 kg of standard uncertainty.
  expect(sigmasOff(5150, 5000, 50)).toBe(3);
  expect(unexplainedWords(5150, 5000, 50)).toBeNull();
  expect(unexplainedWords(5151, 5000, 50)).toMatch(/not explained by the gauge/);
  expect(differenceWords(4950, 5000, 50)).toBe("\u221250\u202fkg, 1.0\u202fσ");
  expect(sigmasOff(5150, 5000, null)).toBeNull();
});

it("the books stand beside each tank, and the difference in σ while one types", async () => {
  const [field] = await screen.findAllByRole("textbox", { name: "Measured" });
  if (field === undefined) throw new Error("no tank");
  const [tank] = page.plan().tanks.filter(({ ownerKind }) => ownerKind === "depot");
  const book = page.plan().opening.find(({ tankId }) => tankId === tank?.id)?.massKg ?? 0;
  const sigmaKg = page.store
    .get()
    .current?.view.readings.filter((reading) => reading.tankId === tank?.id)
    .toSorted((a, b) => a.at - b.at)
    .at(-1)?.sigmaKg;
  if (sigmaKg === undefined) throw new Error("no reading");
  expect(saidAt(field)).toMatch(/by the books .+ then/);
  await page.user.type(field, (book + sigmaKg).toFixed(3));
  expect(saidAt(field)).toMatch(/, 1\.0\u202fσ/);
  await page.user.clear(field);
  await page.user.type(field, (book - 4 * sigmaKg).toFixed(3));
  expect(saidAt(field)).toMatch(/4\.0\u202fσ: not explained by the gauge/);
  expect(screen.getByText(/^Beyond 3 σ: /).textContent).toContain(tank?.name);
});

it("what was to come by then without a record is listed, with the way to record it", async () => {
  const upTo = await screen.findByRole("textbox", { name: "Up to" });
  expect(screen.getByText("No record is missing up to then.")).toBeTruthy();
  await page.user.clear(upTo);
  await page.user.type(upTo, "2031-07-01{Tab}");
  const due = page
    .plan()
    .flights.filter(({ status, departAt, arriveAt }) =>
      status === "departed"
        ? arriveAt <= Date.parse("2031-07-01")
        : status === "firm" && departAt <= Date.parse("2031-07-01"),
    );
  expect(due.length).toBeGreaterThan(0);
  for (const { name } of due) expect(screen.getByText(new RegExp(`^${name} was to .+ no record says so`))).toBeTruthy();
  await page.user.click(screen.getByRole("button", { name: new RegExp(`^Record: ${due[0]?.name ?? ""} was to`) }));
  expect(page.store.get().dialog).toMatchObject({ subject: { kind: "flight", id: due[0]?.id } });
});

it("after it is booked the statement is shown, or the report asked for", async () => {
  await screen.findAllByRole("textbox", { name: "Measured" });
  const revision = page.revision();
  await page.user.click(screen.getByRole("button", { name: "Book boil-off" }));
  await page.saved(revision);
  await waitFor(() => expect(page.store.get().view).toBe("losses"));
});

it("asked for, each tank’s measured rate stands beside the plan’s once it is booked, is adopted there, and then the statement", async () => {
  await screen.findAllByRole("textbox", { name: "Measured" });
  await page.user.click(screen.getByRole("checkbox", { name: /compare the measured loss rates/ }));
  const revision = page.revision();
  await page.user.click(screen.getByRole("button", { name: "Book boil-off" }));
  await page.saved(revision);
  await screen.findByRole("dialog", { name: "The month is closed: measured rates" });
  const rates = within(await screen.findByRole("region", { name: "Tarn hydrogen" }));
  await waitFor(() => expect(rates.getByText("In the plan, there")).toBeTruthy(), { timeout: 10_000 });
  expect(rates.getByText(/^Lost at /)).toBeTruthy();
  expect(rates.getByText("Reduced χ²").parentElement?.textContent).toMatch(/sound: [\d.]+ to [\d.]+/);
  // What a fit advises that cannot be adopted ("Fit k alone") is chosen here, and the fit asked for anew.
  const held = (name: string) => rates.getByText(name).parentElement?.textContent?.endsWith("held");
  expect([held("Proportional loss"), held("Constant loss")]).toEqual([true, false]);
  const choose = async (part: RegExp): Promise<void> => {
    await page.user.click(rates.getByRole("button", { name: /Fit$/ }));
    await page.user.click(await screen.findByRole("option", { name: part }));
  };
  await choose(/^k alone/);
  await waitFor(() => expect([held("Proportional loss"), held("Constant loss")]).toEqual([false, true]), {
    timeout: 10_000,
  });
  await choose(/^c alone/);
  await waitFor(() => expect(held("Proportional loss")).toBe(true), { timeout: 10_000 });
  const known = new Set(page.plan().lossPeriods.map(({ id }) => id));
  await page.user.click(rates.getByRole("button", { name: "Adopt the fitted rate" }));
  await rates.findByText(/^The fitted rate is in the plan from /, {}, { timeout: 10_000 });
  // One period, of this tank, that says what was measured.
  const added = page.plan().lossPeriods.filter(({ id }) => !known.has(id));
  expect(added).toMatchObject([{ tankId: "tarn-hydrogen" }]);
  expect(rates.queryByRole("button", { name: "Adopt the fitted rate" })).toBeNull();
  expect(page.store.get().view).not.toBe("losses");
  await page.user.click(screen.getByRole("button", { name: "Close" }));
  await waitFor(() => expect(page.store.get().view).toBe("losses"));
});
