/** A report taken apart into pieces that are never cut: what is laid on pages. */
import { cellForPeople } from "../../../app/report/format/cell-text.ts";
import { breakableHeading, columnShares } from "../../../app/report/format/column-shares.ts";
import { withShortLists } from "../../../app/report/format/short-lists.ts";
import { subtitle } from "../../../app/report/format/subtitle.ts";
import type { Block, Column, Fact, ReportModel, RowMark, Table } from "../../../app/report/model.ts";

type Chart = Extract<Block, { readonly kind: "chart" }>;

export type Piece =
  | { readonly kind: "title"; readonly title: string; readonly subtitle: string }
  | { readonly kind: "heading"; readonly sectionId: string; readonly text: string }
  | { readonly kind: "paragraph"; readonly text: string }
  | { readonly kind: "caution"; readonly text: string }
  | Extract<Block, { readonly kind: "verdict" }>
  | { readonly kind: "fact"; readonly list: number; readonly fact: Fact }
  | { readonly kind: "item"; readonly list: number; readonly text: string }
  | { readonly kind: "chart"; readonly chart: Chart }
  /** The head of a table: its caption (null where it goes on from the page before) and the names of its columns. */
  | {
      readonly kind: "head";
      readonly tableId: string;
      readonly caption: string | null;
      readonly columns: readonly Column[];
      /** The share of the table's width that each column has, 0 to 1. */
      readonly shares: readonly number[];
      readonly names: readonly string[];
    }
  | {
      readonly kind: "row";
      readonly tableId: string;
      readonly columns: readonly Column[];
      /** The share of the table's width that each column has, 0 to 1. */
      readonly shares: readonly number[];
      readonly cells: readonly string[];
      /** null: a row like the others. */
      readonly mark: RowMark["as"] | null;
    };

/** In the order of reading. */
export const piecesOf = (report: ReportModel): readonly Piece[] => {
  let lists = 0;
  const pieces: Piece[] = [{ kind: "title", title: report.title, subtitle: subtitle(report) }];
  for (const section of withShortLists(report).sections) {
    pieces.push({ kind: "heading", sectionId: section.id, text: section.title });
    for (const block of section.blocks) {
      lists += 1;
      pieces.push(...ofBlock(block, lists, report));
    }
  }
  return pieces;
};

const ofBlock = (block: Block, list: number, report: ReportModel): readonly Piece[] => {
  switch (block.kind) {
    case "list":
      return block.items.map((text) => ({ kind: "item", list, text }));
    case "facts":
      return block.items.map((fact) => ({ kind: "fact", list, fact }));
    case "chart":
      return [{ kind: "chart", chart: block }];
    case "table":
      return ofTable(block, report);
    default:
      return [block];
  }
};

const ofTable = (table: Table, { massUnit }: ReportModel): readonly Piece[] => {
  const { id: tableId, caption, columns } = table;
  const shares = columnShares(table, massUnit);
  const names = columns.map((column) => breakableHeading(column, massUnit));
  const rows = table.rows.map((row, index): Piece => {
    const cells = row.map((cell) => cellForPeople(cell, massUnit));
    const mark = table.marks?.find((each) => each.row === index)?.as ?? null;
    return { kind: "row", tableId, columns, shares, cells, mark };
  });
  return [{ kind: "head", tableId, caption, columns, shares, names }, ...rows];
};
