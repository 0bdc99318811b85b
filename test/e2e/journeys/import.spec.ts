/** A workbook from another office comes in: its columns are seen and corrected, what changes is seen, it is taken, undone, and remembered. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { utils, write } from "@e965/xlsx";
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-foreign-"));
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

const head = ["Flight", "Vehicle", "Launch site", "Depot", "Arrival (UTC)", "H2", "LOX [t]", "Weather"];
const workbook = (day: number): string => {
  const rows = [
    ["Fleet plan, other office"],
    head,
    ["Packhorse 20", "Packhorse hull 2", "Ground", "Tarn", new Date(Date.UTC(2032, 2, day, 6, 30)), 1.9, 8, "fair"],
    ["Packhorse 21", "Packhorse hull 3", "Ground", "Tarn", new Date(Date.UTC(2032, 3, 17)), 1.85, 7.5, "rain"],
  ];
  const book = utils.book_new();
  utils.book_append_sheet(book, utils.aoa_to_sheet([["Read me first"]]), "Notes");
  utils.book_append_sheet(book, utils.aoa_to_sheet(rows, { cellDates: true, UTC: true }), "Plan");
  const path = join(folder, `plan-${day}.xlsx`);
  writeFileSync(path, write(book, { type: "buffer", bookType: "xlsx" }) as Buffer);
  return path;
};

test("a foreign workbook is mapped, taken, undone, and remembered for the next", async ({ planner }, info) => {
  const { page } = planner;
  const dialog = page.getByRole("dialog", { name: "Import rows" });
  const chooseFile = async (path: string) => {
    await planner.choose("file.import.rows");
    await planner.giveFile(path, () => dialog.getByRole("button", { name: "Choose a file…" }).click());
  };
  await chooseFile(workbook(7));
  await expect(dialog.getByText(/sheet “Plan”; headings in line 2/)).toBeVisible();
  await expect(dialog.getByText("In which unit is “H2”?")).toBeVisible();
  await expect(dialog.getByText(/“Weather” means nothing here/)).toBeVisible();
  const take = dialog.getByRole("button", { name: "Import all rows" });
  await expect(take).toBeDisabled();
  await page.screenshot({ path: `test/e2e/screens/${info.project.name}-import-asks.png` });

  // By keyboard: the unit, and the column that is left out.
  await dialog.getByRole("button", { name: /Unit of “H2”/ }).focus();
  await page.keyboard.press("Enter");
  await page.getByRole("option", { name: "t", exact: true }).focus();
  await page.keyboard.press("Enter");
  await expect(dialog.getByText("In which unit is “H2”?")).toBeHidden();
  await dialog.getByRole("button", { name: "Leave “Weather” out" }).click();
  await expect(dialog.getByText("2 rows: 2 new.")).toBeVisible();
  await expect(dialog.getByText(/Left out: Weather/)).toBeVisible();
  await expect(dialog.getByRole("grid", { name: /What would change/ })).toContainText("1.90 t");
  await page.screenshot({ path: `test/e2e/screens/${info.project.name}-import-found.png` });
  expect(await faultsOf(page, "light", ".dialog-sheet")).toEqual([]);
  await take.click();
  await expect(dialog).toBeHidden();
  await planner.choose("view.table");
  const row = page.getByRole("main").getByRole("rowheader", { name: "Packhorse 21", exact: true });
  await expect(row.first()).toBeVisible();

  await chooseFile(workbook(9));
  await expect(dialog.getByText("2 rows: 1 changed, 1 as they are already.")).toBeVisible();
  await expect(dialog.getByText("remembered").first()).toBeVisible();
  await expect(dialog.getByRole("grid", { name: /What would change/ })).toContainText(
    "2032-03-07 06:30 UTC → 2032-03-09 06:30 UTC",
  );
  await page.keyboard.press("Escape");
  await planner.choose("edit.undo");
  await expect(row).toHaveCount(0);
});

test("exported rows come in again without a change, and a file that is none is refused in words", async ({
  planner,
}) => {
  const { page } = planner;
  await planner.choose("file.export.rows");
  const csv = await planner.savedText(() => page.getByRole("button", { name: "Write the file" }).click());
  expect(csv.split("\r\n")[0]).toMatch(/^name,craft,from,to,departs,arrives,berth days,/);
  const path = join(folder, "flights.csv");
  writeFileSync(path, csv);
  await planner.choose("file.import.rows");
  const dialog = page.getByRole("dialog", { name: "Import rows" });
  await planner.giveFile(path, () => dialog.getByRole("button", { name: "Choose a file…" }).click());
  await expect(dialog.getByText(/^\d+ rows: \d+ as they are already\.$/)).toBeVisible();
  await expect(dialog.getByRole("button", { name: "Import all rows" })).toBeDisabled();
  const broken = join(folder, "broken.xlsx");
  writeFileSync(broken, "no workbook");
  await planner.giveFile(broken, () => dialog.getByRole("button", { name: "Choose another…" }).click());
  await expect(dialog.getByRole("alert")).toContainText("ends in .xlsx but is no workbook");
});
