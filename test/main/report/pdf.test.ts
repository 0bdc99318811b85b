/** The PDF is read back by a reader from the registry: every figure of the supply table stands in it. */
import { expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import { cellForPeople } from "../../../app/report/format/cell-text.ts";
import { reportToPdf } from "../../../main/report/pdf.ts";
import { forFont } from "../../../main/report/pdf-page.ts";
import { exampleContext } from "../../app/report/example.ts";
import { heronContext } from "../../app/report/heron-example.ts";
import { plain, readPdf } from "./read-pdf.ts";

test.each([
  ["the small plan", exampleContext],
  ["sortie sheets and craft life", heronContext],
])("every cell of every table can be read back: %s", async (_what, context) => {
  const report = buildReport(context());
  const { text } = await readPdf(await reportToPdf(report));
  expect(text).not.toBe("");
  for (const section of report.sections)
    for (const block of section.blocks)
      if (block.kind === "table")
        for (const cell of block.rows.flat())
          expect(text).toContain(plain(forFont(cellForPeople(cell, report.massUnit))));
});

test("sections are bookmarks, text is tagged, the caution is there", async () => {
  const report = buildReport(exampleContext());
  const { text, outline, info } = await readPdf(await reportToPdf(report));
  expect(outline?.map((item) => item.title)).toEqual(report.sections.map((section) => section.title));
  // The reader hands a Map, whatever its published type says.
  expect(new Map(info as unknown as Map<string, boolean>).get("Marked")).toBe(true);
  expect(text).toContain(plain("can injure and kill"));
});

test("the same report prints to the same bytes", async () => {
  const once = await reportToPdf(buildReport(exampleContext()));
  const again = await reportToPdf(buildReport(exampleContext()));
  expect(again.equals(once)).toBe(true);
});
