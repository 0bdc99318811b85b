/** A spreadsheet program opens what we write: dates are dates, figures are the model's, sheets bear their names. */
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { expect, it } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import type { Table } from "../../../app/report/model.ts";
import { rowsTable, rowsToCsv } from "../../../app/exchange/rows/write-rows.ts";
import { rowsToWorkbook } from "../../../main/exchange/rows-workbook.ts";
import { reportToXlsx } from "../../../main/report/xlsx.ts";
import { tarnEntities, tarnReadings } from "../../app/exchange/rows/tarn-rows.ts";
import { temporaryFolder } from "../../app/records/hand-ledger.ts";
import { heronContext } from "../../app/report/heron-example.ts";
import { client } from "../../suite/clients.ts";

const folder = temporaryFolder();
const convert = (...words: readonly string[]): void => {
  const { status, stderr } = spawnSync("ssconvert", words, { encoding: "utf8", env: { ...process.env, HOME: folder } });
  expect({ status, stderr: stderr.replace(/.*(?:GLib|Gtk|dconf).*\n/gi, "") }).toMatchObject({ status: 0 });
};

/** Days since the last day of 1899, as the Office Open XML standard counts them (ECMA-376, 18.17.4.1). */
const serialOf = (at: number): number => at / 86_400_000 + 25_569;

it("takes the dates of a CSV file for dates, and those of a workbook", client("gnumeric"), async () => {
  const table = rowsTable("flights", tarnEntities, tarnReadings);
  const departs = tarnEntities.flight
    .toSorted((a, b) => a.arriveAt - b.arriveAt)
    .map(({ departAt }) => serialOf(departAt));
  const csv = rowsToCsv(table, { hasMark: true, dates: "spreadsheet", separator: "comma" });
  for (const [name, content] of [
    ["flights.csv", csv],
    ["flights.xlsx", await rowsToWorkbook(table, "flights")],
  ] as const) {
    const [path, xml] = [join(folder, name), join(folder, `${name}.xml`)];
    writeFileSync(path, content);
    convert("--export-type=Gnumeric_XmlIO:sax:0", path, xml);
    const column = table.headings.indexOf("departs");
    const cells = [
      ...readFileSync(xml, "utf8").matchAll(/<gnm:Cell Row="([1-9]\d*)" Col="(\d+)"([^>]*)>([^<]*)/g),
    ].filter(([, , col]) => Number(col) === column);
    expect(cells).toHaveLength(departs.length);
    // Of a workbook the form of a date is that of its cells' style.
    if (name === "flights.xlsx") expect(readFileSync(xml, "utf8")).toMatch(/Format="yyyy-mm-dd/);
    for (const [place, [, , , form, value]] of cells.entries()) {
      if (name === "flights.csv") expect(form).toMatch(/ValueFormat="[^"]*y/);
      expect(Math.abs(Number(value) - departs[place]!)).toBeLessThan(1e-6);
    }
  }
});

it("reads every table of a report's workbook, number by number", client("gnumeric"), async () => {
  const report = buildReport(heronContext());
  const tables = report.sections.flatMap(({ blocks }) =>
    blocks.filter((block): block is Table => block.kind === "table"),
  );
  const path = join(folder, "report.xlsx");
  writeFileSync(path, await reportToXlsx(report));
  convert("-S", path, join(folder, "sheet-%s.csv"));
  for (const table of tables) {
    const lines = parse(readFileSync(join(folder, `sheet-${table.id}.csv`), "utf8"), { relax_column_count: true });
    expect(lines.length).toBeGreaterThanOrEqual(table.rows.length + 1);
    for (const [place, row] of table.rows.entries())
      for (const [column, cell] of row.entries()) {
        const read = (lines[place + 1] as readonly string[])[column] ?? "";
        if (cell.kind === "text") expect(read).toBe(cell.text.startsWith("=") ? `'${cell.text}` : cell.text);
        if (cell.kind === "mass") expect(Number(read)).toBeCloseTo(cell.kg / 1000, 9);
        if (cell.kind === "number" || cell.kind === "days") expect(Number(read)).toBeCloseTo(cell.value, 9);
        if (cell.kind === "instant") expect(read).toMatch(new RegExp(`^${new Date(cell.at).getUTCFullYear()}`));
      }
  }
});
