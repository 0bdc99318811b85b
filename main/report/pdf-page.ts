/** What every part of the PDF writer needs of the page. */
import type { ReportMassUnit } from "../../app/report/model.ts";

export type Doc = PDFKit.PDFDocument;

export interface Page {
  readonly doc: Doc;
  readonly root: PDFKit.PDFStructureElement;
  readonly left: number;
  readonly width: number;
  readonly massUnit: ReportMassUnit;
  /** Tables and charts that a link may lead to, by id. */
  readonly targets: ReadonlySet<string>;
}

/** Marks where a link to a table or chart leads: here. */
export const markTarget = ({ doc, left }: Page, id: string): void => {
  doc.addNamedDestination(id, "XYZ", left, doc.y, null);
};

/** Starts a new page if less than `height` points are left on this one. */
export const keepTogether = ({ doc }: Page, height: number): void => {
  if (doc.y + height > doc.page.height - doc.page.margins.bottom) doc.addPage();
};

/** Characters that the typeface lacks, in others that it has. */
export const forFont = (text: string): string =>
  text
    // A line may break at the typeface's own thin space: between a figure and its unit it must not.
    .replaceAll(/(?<=\d)\u202f(?=[\p{L}%°])/gu, "\u00a0")
    .replaceAll("\u202f", "\u2009")
    .replaceAll("→", "to")
    .replaceAll("Δv", "delta-v")
    .replaceAll("≤", "at most ")
    .replaceAll("≥", "at least ")
    .replaceAll("σ", "sigma")
    .replaceAll("χ", "chi");

/** What a tag may say of itself; pdfkit writes more than its declared types know. */
type TagOptions = PDFKit.Mixins.StructureElementOptions & {
  /** What a header cell heads (ISO 32000-1, table 349). */
  readonly scope?: "Column" | "Row";
  /** Left, top, right, bottom on the page, points from its top left corner (table 344). */
  readonly bbox?: readonly [number, number, number, number];
};

/** A tag of the document's structure, with what it holds; without it, children are added and it is ended by the caller. */
export const tag = ({ doc }: Page, name: string, options: TagOptions, draw?: () => void): PDFKit.PDFStructureElement =>
  doc.struct(name, options, draw);
