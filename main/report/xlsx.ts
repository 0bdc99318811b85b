/** The report as a workbook: one sheet a table, real numbers, dates and units, headings that stay in sight; the same bytes each time. */
import { missingCase } from "../../app/ground/missing-case.ts";
import writeXlsxFile from "write-excel-file/node";
import type { Cell, Column, ReportMassUnit, ReportModel, Section, Table } from "../../app/report/model.ts";
import { neutralise } from "../../app/format/neutralise.ts";
import { headingOf } from "../../app/report/format/cell-text.ts";
import { subtitle } from "../../app/report/format/subtitle.ts";
import { dateZip } from "./zip-dates.ts";

type SheetCell = {
  readonly value?: string | number | Date;
  readonly type?: typeof String | typeof Number | typeof Date;
  readonly format?: string;
  readonly fontWeight?: "bold";
  readonly align?: "left" | "right";
  readonly wrap?: boolean;
} | null;

/** Sheet names hold at most 31 characters and none of these. */
const sheetName = (name: string): string => name.replace(/[[\]:*?/\\]/g, " ").slice(0, 31);

/** Writes it: a sheet of sentences first, then the tables in order. */
export const reportToXlsx = async (report: ReportModel): Promise<Buffer> => {
  const tables = report.sections.flatMap((section) =>
    section.blocks.filter((block): block is Table => block.kind === "table"),
  );
  const sheets = [
    { sheet: "Summary", data: summary(report), columns: [{ width: 110 }] },
    ...tables.map((table) => ({
      sheet: sheetName(table.id),
      data: tableRows(table, report.massUnit),
      columns: table.columns.map((column) => ({ width: Math.round(10 + 6 * column.weight) })),
      stickyRowsCount: 1,
    })),
  ];
  // The library's cell type is wider than ours; ours is a part of it.
  return dateZip(await writeXlsxFile(sheets as never).toBuffer(), report.issuedAt);
};

const summary = (report: ReportModel): readonly (readonly SheetCell[])[] => [
  [heading(report.title, "start")],
  [words(subtitle(report))],
  ...report.sections.flatMap((section) => sectionRows(section)),
];

const sectionRows = (section: Section): readonly (readonly SheetCell[])[] => {
  const lines = section.blocks.flatMap((block): readonly string[] => {
    switch (block.kind) {
      case "paragraph":
      case "caution":
        return [block.text];
      case "list":
        return block.items;
      case "verdict":
        return [
          `${block.word}. ${block.sentence}`,
          ...(block.chance === undefined ? [] : [`${block.chance.figure}: ${block.chance.words}`]),
        ];
      case "facts":
        return block.items.map(({ term, text }) => `${term}: ${text}`);
      case "chart":
      case "table":
        return [];
      default:
        return missingCase(block);
    }
  });
  return lines.length === 0 ? [] : [[null], [heading(section.title, "start")], ...lines.map((line) => [words(line)])];
};

const tableRows = (table: Table, unit: ReportMassUnit): readonly (readonly SheetCell[])[] => [
  table.columns.map((column) => heading(headingOf(column, unit), column.align)),
  ...table.rows.map((row) => row.map((cell, index) => sheetCell(cell, table.columns[index], unit))),
];

const heading = (text: string, align: Column["align"]): SheetCell => ({
  value: neutralise(text),
  type: String,
  fontWeight: "bold",
  align: align === "end" ? "right" : "left",
});

const words = (text: string): SheetCell => ({ value: neutralise(text), type: String, wrap: true });

const figures = (value: number, decimals: number): SheetCell => ({
  value,
  type: Number,
  format: decimals === 0 ? "#,##0" : `#,##0.${"0".repeat(decimals)}`,
});

const sheetCell = (cell: Cell, column: Column | undefined, unit: ReportMassUnit): SheetCell => {
  const perUnit = unit === "t" ? 1000 : 1;
  switch (cell.kind) {
    case "text":
      return { value: neutralise(cell.text), type: String, align: column?.align === "end" ? "right" : "left" };
    case "mass":
    case "shortage":
      return figures(cell.kg / perUnit, unit === "t" ? 3 : 1);
    case "grams":
      return figures(cell.grams / 1000 / perUnit, unit === "t" ? 6 : 3);
    case "number":
    case "percent":
    case "days":
      return figures(cell.value, cell.decimals);
    case "instant":
      return { value: new Date(cell.at), type: Date, format: "yyyy-mm-dd hh:mm" };
    case "nothing":
      return null;
    default:
      return missingCase(cell);
  }
};
