/** What every part of the PDF writer needs of the page. */
import type { ReportMassUnit } from "../../app/report/model.ts";

export type Doc = PDFKit.PDFDocument;

export interface Page {
  readonly doc: Doc;
  readonly root: PDFKit.PDFStructureElement;
  readonly left: number;
  readonly width: number;
  readonly massUnit: ReportMassUnit;
}

/** Starts a new page if less than `height` points are left on this one. */
export const keepTogether = ({ doc }: Page, height: number): void => {
  if (doc.y + height > doc.page.height - doc.page.margins.bottom) doc.addPage();
};

/** Characters that the typeface lacks, in others that it has. */
export const forFont = (text: string): string =>
  text
    .replaceAll("\u202f", "\u2009")
    .replaceAll("→", "to")
    .replaceAll("Δv", "delta-v")
    .replaceAll("≤", "at most ")
    .replaceAll("≥", "at least ")
    .replaceAll("σ", "sigma")
    .replaceAll("χ", "chi");
