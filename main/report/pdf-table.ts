/** Draws a table: heading on every page, figures flush right, rows that never break across pages, each cell tagged. */
import { cellForPeople, headingOf } from "../../app/report/format/cell-text.ts";
import { columnShares } from "../../app/report/format/column-shares.ts";
import type { Column, RowMark, Table } from "../../app/report/model.ts";
import { paperColours } from "../../app/report/picture/colour.ts";
import { type Page, forFont, keepTogether } from "./pdf-page.ts";

const SIZE = 7.5;
const PAD = 3;
const PAD_AFTER_FIGURES = 10;

interface Place {
  readonly x: number;
  readonly width: number;
  readonly align: "left" | "right";
  /** Room before the text: more where words follow figures, which would else stand shoulder to shoulder. */
  readonly padStart: number;
}

/** A table that needs no more than this share of a page is not cut. */
const WHOLE_SHARE = 0.3;
/** No part of a cut table has fewer rows, so that no page has a heading and a row alone. */
const LEAST_ROWS = 3;

interface Row {
  readonly cells: readonly string[];
  readonly height: number;
  readonly mark: RowMark["as"] | null;
}

interface Prepared {
  readonly places: readonly Place[];
  readonly headings: readonly string[];
  readonly captionHeight: number;
  readonly headHeight: number;
  readonly rows: readonly Row[];
}

/** Measured before anything is drawn. */
const prepare = (page: Page, table: Table): Prepared => {
  const { doc, left, width, massUnit } = page;
  const places = placeColumns(table.columns, columnShares(table, massUnit), left, width);
  const headings = table.columns.map((column) => forFont(headingOf(column, massUnit)));
  const rows = table.rows.map((row, place): Row => {
    const cells = row.map((cell) => forFont(cellForPeople(cell, massUnit)));
    const mark = table.marks?.find((each) => each.row === place)?.as ?? null;
    return { cells, mark, height: rowHeight(page, places, cells, mark !== null) };
  });
  doc.font("regular").fontSize(8.5);
  const captionHeight = doc.heightOfString(forFont(table.caption), { width }) + 3;
  return { places, headings, captionHeight, headHeight: rowHeight(page, places, headings, true), rows };
};

const sumOf = (rows: readonly Row[]): number => rows.reduce((sum, { height }) => sum + height, 0);

const pageRoom = ({ doc }: Page): number => doc.page.height - doc.page.margins.top - doc.page.margins.bottom;

/** The room that it takes at least: all of it where it is not cut, else its head with the first rows. */
const least = (page: Page, { captionHeight, headHeight, rows }: Prepared): number => {
  const whole = captionHeight + headHeight + sumOf(rows);
  const first = captionHeight + headHeight + sumOf(rows.slice(0, LEAST_ROWS));
  return whole <= pageRoom(page) * WHOLE_SHARE ? whole : first;
};

export const leastTableHeight = (page: Page, table: Table): number => least(page, prepare(page, table));

/** How many of the rows stand on this page, of those that are left. */
const rowsHere = (rows: readonly Row[], room: number): number => {
  let count = 0;
  let used = 0;
  while (count < rows.length && used + (rows[count]?.height ?? 0) <= room) {
    used += rows[count]?.height ?? 0;
    count += 1;
  }
  const over = rows.length - count;
  return over > 0 && over < LEAST_ROWS ? Math.max(1, count - (LEAST_ROWS - over)) : count;
};

export const drawTable = (page: Page, table: Table): void => {
  const { doc, root, left, width } = page;
  const prepared = prepare(page, table);
  const { places, headings } = prepared;
  keepTogether(page, least(page, prepared));
  const tagged = doc.struct("Table");
  root.add(tagged);
  tagged.add(
    doc.struct("Caption", {}, () => {
      doc
        .font("regular")
        .fontSize(8.5)
        .fillColor(paperColours.quiet)
        .text(forFont(table.caption), left, doc.y, { width });
    }),
  );
  doc.y += 3;
  const head: DrawnRow = { cells: headings, height: prepared.headHeight, tag: "TH", mark: null };
  let rest = prepared.rows;
  while (rest.length > 0) {
    drawRow(page, tagged, places, head);
    // A row that is higher than a page stands alone and is cut: there is always progress.
    const count = Math.max(1, rowsHere(rest, doc.page.height - doc.page.margins.bottom - doc.y));
    for (const row of rest.slice(0, count)) drawRow(page, tagged, places, { ...row, tag: "TD" });
    rest = rest.slice(count);
    if (rest.length > 0) doc.addPage();
  }
  tagged.end();
  doc.x = left;
  doc.y += 8;
};

const placeColumns = (
  columns: readonly Column[],
  shares: readonly number[],
  left: number,
  width: number,
): readonly Place[] => {
  let x = left;
  return columns.map((column, index) => {
    const followsFigures = column.align === "start" && columns[index - 1]?.align === "end";
    const place: Place = {
      x,
      width: width * (shares[index] ?? 0),
      align: column.align === "end" ? "right" : "left",
      padStart: followsFigures ? PAD_AFTER_FIGURES : PAD,
    };
    x += place.width;
    return place;
  });
};

const textWidth = (place: Place | undefined): number => (place ? place.width - place.padStart - PAD : 44);

const rowHeight = ({ doc }: Page, places: readonly Place[], cells: readonly string[], isBold: boolean): number => {
  doc.font(isBold ? "bold" : "regular").fontSize(SIZE);
  const heights = cells.map((cell, index) => doc.heightOfString(cell || " ", { width: textWidth(places[index]) }));
  return Math.max(...heights) + 2 * PAD;
};

interface DrawnRow extends Row {
  readonly tag: "TH" | "TD";
}

const drawRow = (
  page: Page,
  parent: PDFKit.PDFStructureElement,
  places: readonly Place[],
  { cells, height, tag, mark }: DrawnRow,
): void => {
  const { doc, left, width } = page;
  const top = doc.y;
  doc.markContent("Artifact", { type: "Layout" });
  if (mark === "warning") doc.rect(left - 3, top + 1, 2, height - 2).fill(paperColours.warning);
  if (mark === "total")
    doc
      .moveTo(left, top)
      .lineTo(left + width, top)
      .lineWidth(0.75)
      .stroke(paperColours.quiet);
  doc
    .moveTo(left, top + height)
    .lineTo(left + width, top + height)
    .lineWidth(tag === "TH" ? 0.75 : 0.35)
    .stroke(paperColours.hairline);
  doc.endMarkedContent();
  const row = doc.struct("TR");
  // Attached first: an element's drawing runs when it is attached, and the pen must be put down after it.
  parent.add(row);
  for (const [index, cell] of cells.entries()) {
    const place = places[index];
    if (!place) continue;
    row.add(
      doc.struct(tag, {}, () => {
        doc
          .font(tag === "TH" || mark !== null ? "bold" : "regular")
          .fontSize(SIZE)
          .fillColor(paperColours.text);
        doc.text(cell, place.x + place.padStart, top + PAD, { width: textWidth(place), align: place.align });
      }),
    );
  }
  row.end();
  doc.y = top + height;
};
