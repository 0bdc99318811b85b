/** The tables of the timeline as a person fills them in: typed, pasted, filled down; what cannot be read said; rows and columns chosen. */
import type { Locator, Page } from "@playwright/test";
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";

const grid = (page: Page): Locator => page.getByRole("grid", { name: "Flights" });
const row = (page: Page, name: string): Locator => grid(page).getByRole("row", { name: new RegExp(`^${name} `) });
const headings = (page: Page): Promise<string[]> => grid(page).locator("thead .heading-name").allInnerTexts();
const names = (page: Page): Promise<string[]> => grid(page).getByRole("rowheader").allInnerTexts();

const cellOf = async (page: Page, name: string, heading: string): Promise<Locator> => {
  const place = (await headings(page)).indexOf(heading);
  if (place < 0) throw new Error(`no column ${heading}`);
  return row(page, name).locator("th, td").nth(place);
};

const undo = (page: Page, words: string | RegExp): Locator =>
  page.getByRole("contentinfo").getByRole("button", { name: words });

test("a cell is typed over, a copied row is pasted on another, each one step; a date that is none stays and says so", async ({
  planner,
}) => {
  const { page } = planner;
  await planner.choose("view.table");
  const cell = (name: string, text: string) => row(page, name).getByRole("gridcell", { name: text, exact: true });

  await cell("Drover 3", "planned").focus();
  await page.keyboard.type("firm");
  await page.keyboard.press("Enter");
  await expect(undo(page, "Undo Change status of Drover 3")).toBeVisible();
  await expect(cell("Drover 3", "firm")).toBeVisible();

  // With its headings; under them the columns find their places wherever the block is pasted.
  await row(page, "Drover 3").getByRole("rowheader").focus();
  await page.keyboard.press("Control+c");
  await expect(page.getByText(/Flights, 1 row/)).toBeVisible();
  await row(page, "Drover 4").getByRole("rowheader").focus();
  await planner.paste();
  await expect(undo(page, /^Undo Paste \d+ cells of 1 flight$/)).toBeVisible();
  await expect(page.getByText("More than one flight is called “Drover 3” now. Are they two?")).toBeVisible();
  await undo(page, /^Undo Paste/).click();
  await expect(cell("Drover 4", "planned")).toBeVisible();

  await row(page, "Drover 4")
    .getByRole("gridcell", { name: /^2031-/ })
    .first()
    .focus();
  await page.keyboard.type("31 Feb 2031");
  await page.keyboard.press("Enter");
  await expect(
    page.getByRole("alert").filter({ hasText: "Drover 4, Departs: “31 Feb 2031” is not a date." }),
  ).toBeVisible();
  await expect(
    page
      .getByRole("combobox", { name: "Departs, Drover 4" })
      .or(page.getByRole("textbox", { name: "Departs, Drover 4" })),
  ).toBeFocused();
  expect(await faultsOf(page, "light")).toEqual([]);
  await page.keyboard.press("Escape");
  await expect(page.getByRole("alert").filter({ hasText: "is not a date" })).toBeHidden();
});

test("rows from elsewhere become flights from and to where the last one flies; a cell is filled down by keys; each is one step", async ({
  planner,
}) => {
  const { page } = planner;
  await planner.choose("view.table");
  await expect(grid(page)).toBeVisible();
  const before = await names(page);
  const last = before.at(-1) ?? "";
  const departs = await (await cellOf(page, last, "Departs")).innerText();
  const way = [await cellOf(page, last, "From"), await cellOf(page, last, "To")];
  const [from = "", to = ""] = await Promise.all(way.map((cell) => cell.innerText()));
  await row(page, last).getByRole("rowheader").focus();
  const lines = [last, "Spare 1", "Spare 2"].map((name) => `${name}\t${departs.slice(0, 10)}`);
  await planner.paste(["Flight\tDeparts", ...lines].join("\n"));
  await expect(row(page, "Spare 2")).toBeVisible();
  expect(await names(page)).toHaveLength(before.length + 2);
  await expect(await cellOf(page, "Spare 2", "From")).toHaveText(from);
  await expect(await cellOf(page, "Spare 2", "To")).toHaveText(to);

  // By arrows to the cell, its figure typed; marked downward and filled.
  await (await cellOf(page, "Spare 1", "Status")).focus();
  const columns = await headings(page);
  const steps = columns.indexOf("At the port") - columns.indexOf("Status");
  for (let step = 0; step < Math.abs(steps); step++) await page.keyboard.press(steps < 0 ? "ArrowLeft" : "ArrowRight");
  const first = await cellOf(page, "Spare 1", "At the port");
  const second = await cellOf(page, "Spare 2", "At the port");
  const was = await second.innerText();
  await expect(first).toBeFocused();
  await page.keyboard.type("9");
  await page.keyboard.press("Enter");
  await expect(first).toHaveText("9.0");
  await first.focus();
  await page.keyboard.press("Shift+ArrowDown");
  await expect(page.getByRole("button", { name: "Fill down" })).toBeVisible();
  await page.keyboard.press("Alt+ArrowDown");
  await expect(second).toHaveText("9.0");
  await page.keyboard.press("Control+z");
  await expect(second).toHaveText(was);
  await expect(first).toHaveText("9.0");
  await page.keyboard.press("Control+z");
  await expect(first).not.toHaveText("9.0");
  await page.keyboard.press("Control+z");
  await expect(row(page, "Spare 2")).toBeHidden();
  expect(await names(page)).toEqual(before);
});

test("flights are filtered with a sign of what is left out; columns are chosen and sorted, and stand so when the page comes again; depots stand below each other", async ({
  planner,
}) => {
  const { page } = planner;
  await planner.choose("view.table");
  await expect(grid(page)).toBeVisible();
  const all = await names(page);
  await page.getByRole("button", { name: "Filter", exact: true }).click();
  const filter = page.getByRole("region", { name: "Filter" });
  await filter.getByRole("button", { name: /Status$/ }).click();
  await page.getByRole("option", { name: "firm", exact: true }).click();
  await expect(
    filter.getByText(/^1 flight and 0 sorties shown, \d+ left out; levels and statuses count all/),
  ).toBeVisible();
  expect(await names(page)).toHaveLength(1);
  await filter.getByRole("button", { name: "Clear filter" }).click();
  await expect.poll(() => names(page)).toEqual(all);

  await page.getByRole("button", { name: "Columns of Flights" }).click();
  await page.getByRole("option", { name: "Leaves the port" }).click();
  await page.keyboard.press("Escape");
  await expect.poll(() => headings(page)).not.toContain("Leaves the port");
  const arrives = grid(page).getByRole("button", { name: "Arrives" });
  await arrives.click();
  await arrives.click();
  await expect(grid(page).getByRole("columnheader", { name: "Arrives" })).toHaveAttribute("aria-sort", "descending");
  const sorted = await names(page);
  await page.reload();
  await expect(page.getByRole("grid", { name: "Timeline" })).toBeVisible();
  await planner.choose("view.table");
  await expect(page.getByRole("button", { name: "Columns of Flights" })).toHaveText("Columns: 1 not shown");
  expect(await names(page)).toEqual(sorted);
  expect(await headings(page)).not.toContain("Leaves the port");

  await planner.choose("view.depots");
  await page.getByRole("button", { name: "Add depot…" }).click();
  const dialog = page.getByRole("dialog", { name: "Add depot" });
  await dialog.getByRole("textbox", { name: "Name" }).fill("Upper Tarn");
  await dialog.getByRole("button", { name: "Add", exact: true }).click();
  await expect(dialog).toBeHidden();
  await planner.choose("view.timeline");
  await planner.choose("view.table");
  await page
    .getByRole("region", { name: "Timeline tools" })
    .getByRole("button", { name: /Depot$/ })
    .click();
  await page.getByRole("option", { name: "All depots" }).click();
  await expect(page.getByRole("grid", { name: "Timeline of Tarn" })).toBeVisible();
  await expect(page.getByRole("grid", { name: "Timeline of Upper Tarn" })).toBeAttached();
});
