/** The report as a workbook: one sheet a table, real numbers, dates and units, headings that stay in sight; the same bytes each time. */
import { missingCase } from "../../app/ground/missing-case.ts";
import writeXlsxFile from "write-excel-file/node";
import type { Cell, Column, ReportMassUnit, ReportModel, Section, Table } from "../../app/report/model.ts";
import { neutralise } from "../../app/format/neutralise.ts";
import { formatMinute } from "../../app/format/time.ts";
import { plainHeading } from "../../app/report/format/cell-text.ts";
import { issueWord, subtitle } from "../../app/report/format/subtitle.ts";
import { setUpWorkbook } from "../exchange/workbook-setup.ts";
import { dateZip } from "./zip-dates.ts";

type SheetCell = {
  readonly value?: string | number | Date;
  readonly type?: typeof String | typeof Number | typeof Date;
  readonly format?: string;
  readonly fontWeight?: "bold";
  readonly align?: "left" | "right";
  readonly wrap?: boolean;
  /** Of the row, points. */
  readonly height?: number;
} | null;

/** Sheet names hold at most 31 characters and none of these. */
const sheetName = (name: string): string => name.replace(/[[\]:*?/\\]/g, " ").slice(0, 31);

const README_SHEET = "Read me";
const SUMMARY_SHEET = "Summary";
/** Characters of a line of words. */
const LINE = 100;
const LINE_POINTS = 15;
/** A date and time with room at both sides, in characters: less, and some programs show ####. */
const DATE_WIDTH = 18;
const [MIN_WIDTH, MAX_WIDTH] = [9, 48];

/** As wide as its longest, with room for the arrow of the filter. */
const widthOf = (table: Table, index: number, unit: ReportMassUnit): number => {
  const column = table.columns[index];
  const heading = (column === undefined ? 0 : plainHeading(column, unit).length) + 4;
  const cells = table.rows.map((row) => {
    const cell = row[index];
    if (cell?.kind === "instant") return DATE_WIDTH;
    return cell?.kind === "text" ? cell.text.length + 2 : MIN_WIDTH;
  });
  const widest = cells.reduce((most, width) => Math.max(most, width), Math.max(heading, MIN_WIDTH));
  return Math.min(widest, MAX_WIDTH);
};

/** Writes it: what it is, a sheet of sentences, then the tables in order. */
export const reportToXlsx = async (report: ReportModel): Promise<Buffer> => {
  const tables = report.sections.flatMap((section) =>
    section.blocks.filter((block): block is Table => block.kind === "table"),
  );
  const sheets = [
    { sheet: README_SHEET, data: readMe(report, tables), columns: [{ width: 24 }, { width: 86 }] },
    { sheet: SUMMARY_SHEET, data: summary(report), columns: [{ width: 110 }] },
    ...tables.map((table) => ({
      sheet: sheetName(table.id),
      data: tableRows(table, report.massUnit),
      columns: table.columns.map((_, index) => ({ width: widthOf(table, index, report.massUnit) })),
      stickyRowsCount: 1,
    })),
  ];
  // The library's cell type is wider than ours; ours is a part of it.
  // Said here so that there is a set-up of the page, which is then written anew.
  const written = await writeXlsxFile(
    sheets.map((sheet) => ({ ...sheet, orientation: "landscape" })) as never,
  ).toBuffer();
  const workbook = setUpWorkbook(written, {
    title: report.title,
    author: report.author,
    madeAt: report.issuedAt,
    paper: report.paper,
    sheets: [
      { name: README_SHEET, table: null },
      { name: SUMMARY_SHEET, table: null },
      ...tables.map(({ id, columns, rows }) => ({
        name: sheetName(id),
        table: { columns: columns.length, rows: rows.length + 1 },
      })),
    ],
  });
  return dateZip(workbook, report.issuedAt);
};

/** Of when it is, what it was made from, in what units, and what each sheet is. */
const readMe = (report: ReportModel, tables: readonly Table[]): readonly (readonly SheetCell[])[] => {
  const line = (term: string, said: string): readonly SheetCell[] => [heading(term, "start"), words(said, LINE - 20)];
  return [
    [heading(report.title, "start")],
    line("Report", `${issueWord(report)} of ${formatMinute(report.issuedAt)}, by ${report.author}`),
    ...(report.note === "" ? [] : [line("For", report.note)]),
    line("Plan case", report.caseName),
    ...(report.asOfAt === undefined ? [] : [line("As of", formatMinute(report.asOfAt))]),
    line("Inputs", `SHA-256 ${report.inputHash}`),
    ...(report.booksDigest === undefined ? [] : [line("Books", `SHA-256 ${report.booksDigest}`)]),
    line(
      "Units",
      `Masses in ${report.massUnit}; other units stand in the headings, in brackets. Dates and times are UTC.`,
    ),
    [null],
    [heading("Sheet", "start"), heading("What it is", "start")],
    [words(SUMMARY_SHEET), words("What the report says in sentences, section by section.")],
    ...tables.map((table): readonly SheetCell[] => [words(sheetName(table.id)), words(table.caption, LINE - 20)]),
  ];
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
  table.columns.map((column) => heading(plainHeading(column, unit), column.align)),
  ...table.rows.map((row) => row.map((cell, index) => sheetCell(cell, table.columns[index], unit))),
];

const heading = (text: string, align: Column["align"]): SheetCell => ({
  value: neutralise(text),
  type: String,
  fontWeight: "bold",
  align: align === "end" ? "right" : "left",
});

/** Words that wrap; the row is made as high as they need, for not every program does that itself. */
const words = (text: string, line = LINE): SheetCell => {
  const lines = text.split("\n").reduce((sum, part) => sum + Math.max(1, Math.ceil(part.length / line)), 0);
  return { value: neutralise(text), type: String, wrap: true, ...(lines > 1 ? { height: lines * LINE_POINTS } : {}) };
};

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
