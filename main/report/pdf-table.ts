/** Draws a table: heading on every page, figures flush right, rows that never break across pages, each cell tagged. */
import { cellForPeople, headingOf } from "../../app/report/format/cell-text.ts";
import type { Column, Table } from "../../app/report/model.ts";
import { paperColours } from "../../app/report/picture/colour.ts";
import { type Page, forFont, keepTogether } from "./pdf-page.ts";

const SIZE = 7.5;
const PAD = 3;

interface Place {
  readonly x: number;
  readonly width: number;
  readonly align: "left" | "right";
}

export const drawTable = (page: Page, table: Table): void => {
  const { doc, root, left, width } = page;
  const places = placeColumns(table.columns, left, width);
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

const placeColumns = (columns: readonly Column[], left: number, width: number): readonly Place[] => {
  const whole = columns.reduce((sum, column) => sum + column.weight, 0);
  let x = left;
  return columns.map((column) => {
    const place: Place = {
      x,
      width: (width * column.weight) / whole,
      align: column.align === "end" ? "right" : "left",
    };
    x += place.width;
    return place;
  });
};

const rowHeight = ({ doc }: Page, places: readonly Place[], cells: readonly string[], tag: "TH" | "TD"): number => {
  doc.font(tag === "TH" ? "bold" : "regular").fontSize(SIZE);
  const heights = cells.map((cell, index) =>
    doc.heightOfString(cell || " ", { width: (places[index]?.width ?? 50) - 2 * PAD }),
  );
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
        doc.text(cell, place.x + PAD, top + PAD, { width: place.width - 2 * PAD, align: place.align });
      }),
    );
  }
  row.end();
  doc.y = top + height;
};
