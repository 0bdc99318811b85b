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

/** Starts a new page if less than `height` points are left on this one; what is higher than a page leaves none white. */
export const keepTogether = ({ doc }: Page, height: number): void => {
  const { height: whole, margins } = doc.page;
  if (doc.y > margins.top && doc.y + height > whole - margins.bottom) doc.addPage();
};

/** Characters that the typeface lacks, in others that it has. Thin spaces that do not break stay: see `font.ts`. */
export const forFont = (text: string): string =>
  text
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
