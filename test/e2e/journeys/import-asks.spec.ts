/** What a file leaves open is asked about or refused in the window, as it is on the command line: shown per cents, formulas, hidden sheets, calendars. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { utils, write, type WorkBook } from "@e965/xlsx";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { expect, test } from "../harness/test.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-asks-"));
test.afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A hidden sheet stands first; a level is 0.25 shown as 25 %; day and time stand in two columns; a formula has no value. */
const gauges = (): string => {
  const book: WorkBook = utils.book_new();
  const day = new Date(Date.UTC(2031, 5, 2));
  const rows = [
    ["Tank", "Date", "Time", "Level %", "Sigma kg"],
    ["Tarn hydrogen", day, 0.25, 0.25, 51],
    ["Tarn oxygen", day, 0.75, 0.3, 128],
  ];
  utils.book_append_sheet(book, utils.aoa_to_sheet(rows as never, { cellDates: true, UTC: true }), "Old");
  const sheet = utils.aoa_to_sheet(rows as never, { cellDates: true, UTC: true });
  for (const cell of ["D2", "D3"]) (sheet[cell] as { z: string }).z = "0%";
  sheet["D3"] = { t: "n", v: 0.3, f: "3/10", z: "0%" };
  utils.book_append_sheet(book, sheet, "Gauges");
  book.Workbook = { Sheets: [{ Hidden: 1 }, { Hidden: 0 }] };
  const parts = unzipSync(write(book, { type: "buffer", bookType: "xlsx" }) as Buffer);
  const name = "xl/worksheets/sheet2.xml";
  parts[name] = strToU8(strFromU8(parts[name]!).replace(/(<f>[^<]*<\/f>)<v>[^<]*<\/v>/, "$1"));
  const path = join(folder, "gauges.xlsx");
  writeFileSync(path, zipSync(parts));
  return path;
};

const calendar = (): string => {
  const event = (start: string, n: number) => [
    "BEGIN:VEVENT",
    `UID:launch-${n}@other`,
    `SUMMARY:Packhorse hull 2 to Tarn ${n}`,
    start,
    "END:VEVENT",
  ];
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Other office//EN",
    ...event("DTSTART:20320701T120000", 1),
    ...event("DTSTART;VALUE=DATE:20320801", 2),
    "END:VCALENDAR",
    "",
  ];
  const path = join(folder, "office.ics");
  writeFileSync(path, lines.join("\r\n"));
  return path;
};

test("what a workbook shows and a calendar leaves open is asked or refused", { tag: "@page" }, async ({ planner }) => {
  const { page } = planner;
  const dialog = page.getByRole("dialog", { name: "Import rows" });
  const take = dialog.getByRole("button", { name: "Import all rows" });
  await planner.choose("file.import.rows");
  await planner.giveFile(gauges(), () => dialog.getByRole("button", { name: "Choose a file…" }).click());
  await expect(dialog.getByText(/sheet “Gauges”/)).toBeVisible();
  await expect(dialog.getByText("2 rows: 1 new, 1 with errors.")).toBeVisible();
  await expect(dialog.getByText(/^Cell D3 holds a formula, and the file does not say what it came to/)).toBeVisible();
  // A quarter of the 17 t that the tank holds, at a quarter of the day.
  const grid = dialog.getByRole("grid", { name: /What would change/ });
  await expect(grid).toContainText("2031-06-02 06:00 UTC");
  await expect(grid).toContainText(/4\s250\s*kg/);
  await expect(take).toBeDisabled();

  await planner.giveFile(calendar(), () => dialog.getByRole("button", { name: "Choose another…" }).click());
  await expect(dialog.getByText(/states times without a time zone: in which zone are they\?/)).toBeVisible();
  await expect(dialog.getByText(/takes whole days: at which time of day/)).toBeVisible();
  await expect(take).toBeDisabled();
});
