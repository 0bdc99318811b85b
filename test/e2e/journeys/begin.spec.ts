/** From nothing to a true answer, and a month to its statement: how much a person's hand has to do. The numbers only fall. */
import { join } from "node:path";
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { countHand } from "../harness/hand.ts";

/** Presses from the start of the program to a true answer about an own programme; the goal was 30. */
const MAX_CLICKS_TO_BEGIN = 10;
const MAX_FIELDS_TO_BEGIN = 24;
/** By the keystroke-level model (harness/hand-time.ts), without looking up the figures; the goal was 8 minutes. */
const MAX_SECONDS_TO_BEGIN = 140;
/** Presses for a month: levels of all tanks measured and booked, the statement looked at, the report issued. */
const MAX_CLICKS_A_MONTH = 6;
const MAX_SECONDS_A_MONTH = 44;

test("a planner's own programme comes to a true answer", async ({ planner, home }) => {
  const { page } = planner;
  const dialog = page.getByRole("dialog");
  await expect(page.getByRole("grid", { name: "Timeline" })).toBeVisible();
  const hand = await countHand(planner);
  await hand.choose("file.new");
  for (const colorScheme of ["dark", "light"] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await faultsOf(page, colorScheme, ".dialog")).toEqual([]);
  }
  const type = (name: string, text: string): Promise<void> =>
    hand.type(dialog.getByRole("textbox", { name, exact: true }), text);
  await type("Programme", "Own programme");
  await type("Plan begins", "2033-01-01");
  await type("A sortie is away", "14");
  for (const index of [1, 2]) {
    const tanker = dialog.getByRole("group", { name: `Tanker class ${index}` });
    await hand.type(tanker.getByRole("textbox", { name: "Transit" }), index === 1 ? "7" : "100");
    await hand.type(tanker.getByRole("textbox", { name: "At the port" }), "2");
  }
  const figures = [
    ["Depot tank, inner volume, m³", "120", "40"],
    ["Ullage kept, %", "5", "4"],
    ["In the tank when the plan begins, kg", "3000", "16000"],
    ["Boil-off, %/day", "0.1", "0.02"],
    ["Loaded on Tanker A, kg", "2000", "9000"],
    ["Loaded on Tanker B, kg", "5000", "20000"],
    ["Needed aboard Lander for a sortie, kg", "4000", "22000"],
  ] as const;
  for (const [row, hydrogen, oxygen] of figures) {
    await type(`Hydrogen: ${row}`, hydrogen);
    await type(`Oxygen: ${row}`, oxygen);
  }
  await planner.givePlace(join(home, "own.coldstock"), () =>
    dialog.getByRole("button", { name: "Create ledger" }).click(),
  );
  await expect(dialog).toBeHidden();
  // Everything is there but flights and sorties; the guide leads to them.
  await page.getByRole("button", { name: "Add: Flights that bring propellant" }).click();
  await type("Departs", "2033-02-01");
  await dialog.getByRole("button", { name: "Add", exact: true }).click();
  await expect(dialog).toBeHidden();
  await page.getByRole("button", { name: "Add: Sorties that use it" }).click();
  await type("Loads and leaves", "2033-03-02");
  await dialog.getByRole("button", { name: "Add another" }).click();
  await expect(dialog.getByText("Added: Sortie 1.")).toBeVisible();
  await type("Loads and leaves", "2033-05-01");
  await dialog.getByRole("button", { name: "Add", exact: true }).click();
  await expect(dialog).toBeHidden();
  await hand.choose("view.supply");

  // By hand: 16 t of oxygen for 60 days and 9 t for 22 from the arrival, at 0.02 % a day: 15.81 + 8.96 t, less 22 t is
  // 2.77 t, which is less of the need than hydrogen's 2.83 + 1.96 − 4 t. The second sortie finds too little.
  const sorties = page.getByRole("main").getByRole("grid", { name: /^Margin over the reserve/ });
  const first = sorties.getByRole("row", { name: /^Sortie 1/ });
  await expect(first).toContainText("supplied");
  await expect(first).toContainText("Oxygen+2.77");
  await expect(sorties.getByRole("row", { name: /^Sortie 2/ })).toContainText("short");
  await expect(page.getByRole("complementary").getByText("What this ledger needs")).toBeHidden();
  const work = await hand.counted();
  test.info().annotations.push({ type: "hand", description: JSON.stringify(work) });
  expect(work.clicks).toBeLessThanOrEqual(MAX_CLICKS_TO_BEGIN);
  expect(work.fields).toBeLessThanOrEqual(MAX_FIELDS_TO_BEGIN);
  expect(work.seconds).toBeLessThanOrEqual(MAX_SECONDS_TO_BEGIN);
});

test("a month is closed: levels measured, booked, looked at, issued", async ({ planner }) => {
  const { page } = planner;
  const dialog = page.getByRole("dialog");
  await expect(page.getByRole("grid", { name: "Timeline" })).toBeVisible();
  const hand = await countHand(planner);
  await hand.choose("record.closing");
  await hand.type(dialog.getByRole("textbox", { name: "Up to" }), "2031-07-01");
  const levels = { "Tarn hydrogen": "9000", "Tarn oxygen": "50000", "Tarn hydrazine": "900" };
  for (const [tank, kg] of Object.entries(levels))
    await hand.type(dialog.getByRole("region", { name: tank }).getByRole("textbox", { name: "Measured" }), kg);
  await dialog.getByRole("button", { name: "Book boil-off" }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByRole("main").getByRole("grid", { name: /Loss statement, as happened/ })).toBeVisible();
  await hand.choose("report.issue");
  await dialog.getByRole("button", { name: /^Issue/ }).click();
  await expect(dialog).toBeHidden();
  const work = await hand.counted();
  test.info().annotations.push({ type: "hand", description: JSON.stringify(work) });
  expect(work.clicks).toBeLessThanOrEqual(MAX_CLICKS_A_MONTH);
  expect(work.seconds).toBeLessThanOrEqual(MAX_SECONDS_A_MONTH);
});
