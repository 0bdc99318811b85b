/** The losses section: the books to the gram in every form, the comparison, and what is said without records. */
import { expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import { tableToCsv } from "../../../app/report/format/csv.ts";
import type { Table } from "../../../app/report/model.ts";
import { exampleContext } from "./example.ts";

const sectionOf = (context: ReturnType<typeof exampleContext>) =>
  buildReport(context).sections.find((section) => section.id === "losses")!;

test("the statement's grams arrive in the table and, digit for digit, in the CSV", () => {
  const tables = sectionOf(exampleContext()).blocks.filter((block): block is Table => block.kind === "table");
  expect(tables.map((table) => table.id)).toEqual(["losses-tarn-hydrogen", "losses-compared"]);
  const [month, all] = tables[0]!.rows;
  expect(month).toContainEqual({ kind: "grams", grams: 187_654 });
  expect(month).toContainEqual({ kind: "text", text: "2030-12" });
  expect(all!.slice(1)).toEqual(month!.slice(1));
  expect(tableToCsv(tables[0]!, "kg")).toContain("187.654");
});

test("without records in the period it says so", () => {
  const { blocks } = sectionOf({ ...exampleContext(), losses: null });
  expect(blocks).toEqual([{ kind: "paragraph", text: "Nothing is recorded in the period of this report." }]);
});
