/** The workbook is read back by another library and equals the model, number by number. */
import { read, utils } from "@e965/xlsx";
import { expect, test } from "vitest";
import { strFromU8, unzipSync } from "fflate";
import { SaxesParser } from "saxes";
import { type Entry, fromBuffer } from "yauzl";
import { buildReport } from "../../../app/report/build.ts";
import type { Table } from "../../../app/report/model.ts";
import { reportToXlsx } from "../../../main/report/xlsx.ts";
import { exampleContext } from "../../app/report/example.ts";
import { heronContext } from "../../app/report/heron-example.ts";

test.each([
  ["the small plan", exampleContext],
  ["sortie sheets and craft life", heronContext],
])("every table is a sheet whose cells are the model's numbers, dates and words: %s", async (_what, context) => {
  const report = buildReport(context());
  const tables = report.sections.flatMap((section) =>
    section.blocks.filter((block): block is Table => block.kind === "table"),
  );
  const book = read(await reportToXlsx(report), { cellDates: true, UTC: true });
  expect(book.SheetNames).toEqual(["Read me", "Summary", ...tables.map((table) => table.id)]);
  for (const table of tables) {
    const sheet = book.Sheets[table.id]!;
    table.rows.forEach((row, index) => {
      row.forEach((cell, column) => {
        const read = sheet[utils.encode_cell({ r: index + 1, c: column })];
        if (cell.kind === "mass") expect(read.v).toBeCloseTo(cell.kg / 1000, 9);
        if (cell.kind === "number" || cell.kind === "percent" || cell.kind === "days")
          expect(read.v).toBeCloseTo(cell.value, 9);
        if (cell.kind === "instant") expect((read.v as Date).getTime()).toBe(cell.at);
        if (cell.kind === "text" && cell.text !== "") expect(read.v).toBe(cell.text);
        if (cell.kind === "nothing") expect(read).toBeUndefined();
      });
    });
  }
});

test("no cell of the workbook is a formula, whatever a person called things", async () => {
  const context = exampleContext();
  const named = { ...context, programme: '=HYPERLINK("x")' };
  const book = read(await reportToXlsx(buildReport(named)));
  const cells = book.SheetNames.flatMap((name) =>
    Object.entries(book.Sheets[name]!).filter(([key]) => !key.startsWith("!")),
  );
  expect(cells.length).toBeGreaterThan(20);
  for (const [, cell] of cells) expect((cell as { f?: string }).f).toBeUndefined();
  expect(book.Sheets["Summary"]!["A1"].v).toBe(`'=HYPERLINK("x"): Baseline`);
});

test("every file inside the workbook bears the report's own date, as an independent reader of archives finds it", async () => {
  const report = buildReport(exampleContext());
  const bytes = await reportToXlsx(report);
  const dates = await new Promise<readonly number[]>((resolve, reject) => {
    const found: number[] = [];
    fromBuffer(bytes, { lazyEntries: false }, (failed, archive) => {
      if (failed) return reject(failed);
      archive.on("entry", (entry: Entry) => found.push(entry.getLastModDate({ timezone: "UTC" }).getTime()));
      archive.on("end", () => resolve(found));
      archive.on("error", reject);
      return undefined;
    });
  });
  expect(dates.length).toBeGreaterThan(5);
  // An archive counts in steps of two seconds (the ZIP format keeps half seconds of a minute).
  for (const date of dates) expect(report.issuedAt - date).toSatisfy((off: number) => off >= 0 && off < 2000);
});

test("every table has a filter over all of it, headings repeated on paper, landscape fitted to its width, dates that show", async () => {
  const report = buildReport(exampleContext());
  const bytes = await reportToXlsx(report);
  const book = read(bytes, { cellDates: true, UTC: true });
  const files = unzipSync(new Uint8Array(bytes));
  const xmlOf = (path: string) => strFromU8(files[path] ?? new Uint8Array());
  const names = book.Workbook?.Names ?? [];
  book.SheetNames.forEach((name, place) => {
    const xml = xmlOf(`xl/worksheets/sheet${place + 1}.xml`);
    // XML that a strict parser takes.
    expect(() => new SaxesParser({ xmlns: true }).write(xml).close()).not.toThrow();
    expect(xml).toContain('fitToWidth="1" fitToHeight="0"');
    expect(xml).toMatch(/<oddFooter>.*&#38;P \/ &#38;N<\/oddFooter>/);
    if (place < 2) return;
    const sheet = book.Sheets[name]!;
    expect(sheet["!autofilter"]?.ref).toBe(sheet["!ref"]);
    expect(xml).toContain('orientation="landscape"');
    expect(names.find((each) => each.Sheet === place && each.Name === "_xlnm.Print_Titles")?.Ref).toBe(
      `'${name}'!$1:$1`,
    );
    const headings = utils.sheet_to_json<string[]>(sheet, { header: 1 })[0] ?? [];
    // No space but the plain one, so that a look-up by name finds it.
    for (const heading of headings) expect(heading).toMatch(/^[^\u00a0\u202f\u2009]+$/);
    expect(xml).toMatch(/<col [^>]*width=/);
  });
  expect(book.Props?.Title).toBe(report.title);
  const about = utils.sheet_to_json<string[]>(book.Sheets["Read me"]!, { header: 1 }).map((row) => row.join(" | "));
  expect(about.join("\n")).toMatch(/As of \| 2031-01-01/);
  expect(about.join("\n")).toMatch(/Units \| Masses in t/);
  for (const name of book.SheetNames.slice(1)) expect(about.some((row) => row.startsWith(`${name} | `))).toBe(true);
});
