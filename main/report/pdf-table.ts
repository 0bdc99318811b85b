/** Draws a table: heading on every page, figures flush right, rows that never break across pages, each cell tagged. */
import { cellForPeople } from "../../app/report/format/cell-text.ts";
import { breakableHeading, columnShares } from "../../app/report/format/column-shares.ts";
import type { Column, RowMark, Table } from "../../app/report/model.ts";
import { paperColours } from "../../app/picture/paper-theme.ts";
import { type Page, forFont, keepTogether, markTarget, tag } from "./pdf-page.ts";

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

interface PlacedCell {
  readonly text: string;
  /** The block that it leads to. */
  readonly to: string | null;
  readonly tag: "TD" | "TH";
  /** Of a header cell. */
  readonly scope: "Column" | "Row";
}

interface Row {
  readonly cells: readonly PlacedCell[];
  readonly height: number;
  readonly mark: RowMark["as"] | null;
}

interface Prepared {
  readonly places: readonly Place[];
  readonly headings: readonly PlacedCell[];
  readonly captionHeight: number;
  readonly headHeight: number;
  readonly rows: readonly Row[];
}

/** Measured before anything is drawn. */
const prepare = (page: Page, table: Table): Prepared => {
  const { doc, left, width, massUnit } = page;
  const places = placeColumns(table.columns, columnShares(table, massUnit), left, width);
  const headings = table.columns.map((column): PlacedCell => ({
    text: forFont(breakableHeading(column, massUnit)),
    to: null,
    tag: "TH",
    scope: "Column",
  }));
  const rows = table.rows.map((row, rowIndex): Row => {
    const cells = row.map((cell, index): PlacedCell => ({
      text: forFont(cellForPeople(cell, massUnit)),
      to: cell.kind === "text" && cell.to !== undefined && page.targets.has(cell.to) ? cell.to : null,
      // A row is known by its first cell, where that is words.
      tag: index === 0 && cell.kind === "text" && cell.text !== "" ? "TH" : "TD",
      scope: "Row",
    }));
    const mark = table.marks?.find((each) => each.row === rowIndex)?.as ?? null;
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
  markTarget(page, table.id);
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
  const head: Row = { cells: headings, height: prepared.headHeight, mark: null };
  let rest = prepared.rows;
  let isFirst = true;
  while (rest.length > 0) {
    // On later pages the head is for the eye alone: the table has it once.
    if (isFirst) drawRow(page, tagged, places, { ...head, isHead: true });
    else repeatHead(page, places, head);
    isFirst = false;
    // A row that is higher than a page stands alone and is cut: there is always progress.
    const count = Math.max(1, rowsHere(rest, doc.page.height - doc.page.margins.bottom - doc.y));
    for (const row of rest.slice(0, count)) drawRow(page, tagged, places, { ...row, isHead: false });
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

const rowHeight = ({ doc }: Page, places: readonly Place[], cells: readonly PlacedCell[], isBold: boolean): number => {
  doc.font(isBold ? "bold" : "regular").fontSize(SIZE);
  const heights = cells.map(({ text }, index) => doc.heightOfString(text || " ", { width: textWidth(places[index]) }));
  return Math.max(...heights) + 2 * PAD;
};

interface DrawnRow extends Row {
  readonly isHead: boolean;
}

/** What stands beside the words of a row: its mark, and the line below it. */
const drawRules = ({ doc, left, width }: Page, top: number, { height, mark, isHead }: DrawnRow): void => {
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
    .lineWidth(isHead ? 0.75 : 0.35)
    .stroke(paperColours.hairline);
};

const drawCell = ({ doc }: Page, index: Place, top: number, { text, to }: PlacedCell, isBold: boolean): void => {
  doc
    .font(isBold ? "bold" : "regular")
    .fontSize(SIZE)
    .fillColor(paperColours.text);
  const x = index.x + index.padStart;
  doc.text(text, x, top + PAD, { width: textWidth(index), align: index.align, underline: to !== null });
};

/** The head of a table on a page that goes on with it: seen, and passed over when the table is read aloud. */
const repeatHead = (page: Page, places: readonly Place[], head: Row): void => {
  const { doc } = page;
  const top = doc.y;
  doc.markContent("Artifact", { type: "Pagination" });
  drawRules(page, top, { ...head, isHead: true });
  head.cells.forEach((cell, index) => {
    const place = places[index];
    if (place) drawCell(page, place, top, cell, true);
  });
  doc.endMarkedContent();
  doc.y = top + head.height;
};

const drawRow = (page: Page, parent: PDFKit.PDFStructureElement, places: readonly Place[], drawn: DrawnRow): void => {
  const { doc } = page;
  const { cells, height, isHead, mark } = drawn;
  const top = doc.y;
  doc.markContent("Artifact", { type: "Layout" });
  drawRules(page, top, drawn);
  doc.endMarkedContent();
  const row = doc.struct("TR");
  // Attached first: an element's drawing runs when it is attached, and the pen must be put down after it.
  parent.add(row);
  for (const [index, cell] of cells.entries()) {
    const place = places[index];
    if (!place) continue;
    const draw = (): void => drawCell(page, place, top, cell, isHead || mark !== null);
    const element = tag(page, cell.tag, cell.tag === "TH" ? { scope: cell.scope } : {});
    row.add(element);
    if (cell.to === null) element.add(draw);
    else addLink(page, element, { place, top, cell, draw, to: cell.to });
    element.end();
  }
  row.end();
  doc.y = top + height;
};

interface LinkedCell {
  readonly place: Place;
  readonly top: number;
  readonly cell: PlacedCell;
  readonly to: string;
  readonly draw: () => void;
}

/** pdfkit writes a plain string as a name, and a String object as text; its declared types know the first alone. */
const textString = (text: string): string => Object(text);

/** The words of a cell as a link to another block, tagged as one (ISO 14289-1, 7.18.5). */
const addLink = (page: Page, parent: PDFKit.PDFStructureElement, { place, top, cell, to, draw }: LinkedCell): void => {
  const { doc } = page;
  const link = doc.struct("Link");
  parent.add(link);
  link.add(draw);
  const words = { structParent: link, Contents: textString(`${cell.text}: more of it`) };
  doc.goTo(place.x + place.padStart, top + PAD, textWidth(place), doc.currentLineHeight(), to, words);
  link.end();
};
