/** CSV in every form that can be asked for, read back by a parser that is not the writer; an import takes each back. */
import { parse } from "csv-parse/sync";
import { expect, it, test } from "vitest";
import { type CsvForm, csvText, strictCsv } from "../../../app/format/csv-form.ts";
import { rowsTable, rowsToCsv } from "../../../app/exchange/rows/write-rows.ts";
import { take, tarnEntities, tarnReadings } from "../exchange/rows/tarn-rows.ts";

const rows = [
  ["name", "at", "kg", "booked"],
  ['a "quoted", one; two', new Date(Date.UTC(2031, 1, 20, 14, 5)), 1234.5, { figure: "-0.125000" }],
  [" ", new Date(Date.UTC(2031, 1, 20, 14, 5, 7, 25)), 1e21, null],
] as const;

test("strictly: commas, CRLF, ISO 8601, a point, no mark (RFC 4180)", () => {
  expect(csvText(rows, strictCsv)).toBe(
    [
      "name,at,kg,booked",
      '"a ""quoted"", one; two",2031-02-20T14:05:00.000Z,1234.5,-0.125000',
      '" ",2031-02-20T14:05:07.025Z,1e+21,',
      "",
    ].join("\r\n"),
  );
});

test("for a spreadsheet: dates without T and zone, semicolons with decimal commas, a mark", () => {
  const text = csvText(rows, { hasMark: true, dates: "spreadsheet", separator: "semicolon" });
  expect(Buffer.from(text).subarray(0, 3)).toEqual(Buffer.from([0xef, 0xbb, 0xbf]));
  expect(parse(text, { bom: true, delimiter: ";" })).toEqual([
    ["name", "at", "kg", "booked"],
    ['a "quoted", one; two', "2031-02-20 14:05:00", "1234,5", "-0,125000"],
    [" ", "2031-02-20 14:05:07.025", "1e+21", ""],
  ]);
});

const forms: readonly CsvForm[] = (["comma", "semicolon", "tab"] as const).flatMap((separator) =>
  (["exact", "spreadsheet"] as const).map((dates) => ({ hasMark: dates === "spreadsheet", dates, separator })),
);

it.each(forms)("an import takes it back without a change: %j", async (form) => {
  for (const kind of ["flights", "sorties", "readings"] as const) {
    const text = rowsToCsv(rowsTable(kind, tarnEntities, tarnReadings), form);
    const decimals = form.separator === "semicolon" ? "comma" : "point";
    const { preview, changes, readings } = await take(kind, text, { mapping: { decimals } });
    expect(preview).toMatchObject({ questions: [], faultCount: 0, newRows: 0, changedRows: 0 });
    expect([changes, readings]).toEqual([[], []]);
  }
});
