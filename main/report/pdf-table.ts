/** Draws a table: heading on every page, figures flush right, rows that never break across pages, each cell tagged. */
import { cellForPeople, headingOf } from "../../app/report/format/cell-text.ts";
import { columnShares } from "../../app/report/format/column-shares.ts";
import type { Column, Table } from "../../app/report/model.ts";
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

export const drawTable = (page: Page, table: Table): void => {
  const { doc, root, left, width } = page;
  const places = placeColumns(table.columns, columnShares(table, page.massUnit), left, width);
  const headings = table.columns.map((column) => forFont(headingOf(column, page.massUnit)));
  keepTogether(page, 70);
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
  drawRow(page, tagged, places, headings, "TH");
  for (const row of table.rows) {
    const cells = row.map((cell) => forFont(cellForPeople(cell, page.massUnit)));
    const height = rowHeight(page, places, cells, "TD");
    if (doc.y + height > doc.page.height - doc.page.margins.bottom) {
      doc.addPage();
      drawRow(page, tagged, places, headings, "TH");
    }
    drawRow(page, tagged, places, cells, "TD");
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

const rowHeight = ({ doc }: Page, places: readonly Place[], cells: readonly string[], tag: "TH" | "TD"): number => {
  doc.font(tag === "TH" ? "bold" : "regular").fontSize(SIZE);
  const heights = cells.map((cell, index) => doc.heightOfString(cell || " ", { width: textWidth(places[index]) }));
  return Math.max(...heights) + 2 * PAD;
};

const drawRow = (
  page: Page,
  parent: PDFKit.PDFStructureElement,
  places: readonly Place[],
  cells: readonly string[],
  tag: "TH" | "TD",
): void => {
  const { doc, left, width } = page;
  const height = rowHeight(page, places, cells, tag);
  const top = doc.y;
  doc.markContent("Artifact", { type: "Layout" });
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
          .font(tag === "TH" ? "bold" : "regular")
          .fontSize(SIZE)
          .fillColor(paperColours.text);
        doc.text(cell, place.x + place.padStart, top + PAD, { width: textWidth(place), align: place.align });
      }),
    );
  }
  row.end();
  doc.y = top + height;
};
