/** The report as PDF: vector charts, bookmarks, tagged text, page numbers. The same report gives the same bytes. */
// oxlint-disable-next-line import/no-named-as-default -- the published types know the default alone
import PDFDocument from "pdfkit";
import { onPaper } from "../../app/report/format/on-paper.ts";
import { footer, subtitle } from "../../app/report/format/subtitle.ts";
import { withShortLists } from "../../app/report/format/short-lists.ts";
import type { ReportModel, Section } from "../../app/report/model.ts";
import { escapeMarkup } from "../../app/format/markup.ts";
import { paperColours } from "../../app/picture/paper-theme.ts";
import { registerFonts } from "./font.ts";
import { drawBlocks, heightOfWords, leadHeight } from "./pdf-block.ts";
import { type Page, forFont, keepTogether } from "./pdf-page.ts";

const MARGIN = 50;
/** Of a section's heading with the room above and below it, points. */
const HEADING = 34;

/** Room for "12 / 34" beside the footer. */
const PAGE_NUMBER = 44;
const FOOTER = 7;
const LEAST_FOOTER_SHARE = 0.7;

/** Writes it. `onPart` hears the share that is done, 0 to 1. */
export const reportToPdf = async (whole: ReportModel, onPart: (share: number) => void = () => {}): Promise<Buffer> => {
  const report = withShortLists(onPaper(whole));
  const issued = new Date(report.issuedAt);
  const options: PDFKit.PDFDocumentOptions = {
    size: report.paper === "letter" ? "LETTER" : "A4",
    margins: { top: MARGIN, bottom: MARGIN + 14, left: MARGIN, right: MARGIN },
    bufferPages: true,
    pdfVersion: "1.7",
    tagged: true,
    displayTitle: true,
    lang: "en-GB",
    info: {
      Title: report.title,
      Author: report.author,
      Creator: "Coldstock",
      Producer: "Coldstock",
      CreationDate: issued,
      ModDate: issued,
    },
  };
  // The declared types do not know this one: the metadata name the file as ISO 14289-1.
  const doc = new PDFDocument(Object.assign(options, { subset: "PDF/UA" }));
  escapeMetadata(doc, report);
  const chunks: Buffer[] = [];
  const done = new Promise<Buffer>((resolve, reject) => {
    doc.on("data", (chunk: Buffer) => chunks.push(chunk));
    doc.on("end", () => resolve(Buffer.concat(chunks)));
    doc.on("error", reject);
  });
  registerFonts(doc);
  const root = doc.struct("Document");
  doc.addStructure(root);
  const page: Page = {
    doc,
    root,
    left: MARGIN,
    width: doc.page.width - 2 * MARGIN,
    massUnit: report.massUnit,
    targets: targetsOf(report),
  };
  titleLines(page, report);
  const end = endOf(page, report.sections);
  for (const [index, section] of report.sections.entries()) {
    if (index === end.from) keepTogether(page, end.height);
    drawSection(page, section);
    onPart((index + 1) / report.sections.length);
    // Lets a cancel or a progress event through between sections.
    await new Promise<void>((resolve) => setImmediate(resolve));
  }
  root.end();
  numberPages(page, report);
  doc.end();
  return done;
};

/** pdfkit puts title and author into the metadata as they are; in XML an ampersand or a bracket would break it. */
const escapeMetadata = (doc: Page["doc"], { title, author }: ReportModel): void => {
  const append = doc.appendXML.bind(doc);
  doc.appendXML = (xml, isNewLine) =>
    append(
      [title, author].reduce((text, words) => text.replaceAll(`>${words}<`, () => `>${escapeMarkup(words)}<`), xml),
      isNewLine,
    );
};

/** What may be linked to: every table and chart, by id. */
const targetsOf = (report: ReportModel): ReadonlySet<string> =>
  new Set(report.sections.flatMap(({ blocks }) => blocks.flatMap((block) => ("id" in block ? [block.id] : []))));

const titleLines = (page: Page, report: ReportModel): void => {
  const { doc, root, left, width } = page;
  root.add(
    doc.struct("H1", {}, () => {
      doc.font("bold").fontSize(20).fillColor(paperColours.text).text(forFont(report.title), left, doc.y, { width });
    }),
  );
  root.add(
    doc.struct("P", {}, () => {
      doc
        .font("regular")
        .fontSize(9)
        .fillColor(paperColours.quiet)
        .text(forFont(subtitle(report)), left, doc.y + 2, { width });
    }),
  );
  doc.moveDown(0.5);
};

/** The last page has at least this part of itself written on, where the last sections are short words. */
const END_SHARE = 0.35;

/** From which section on the end of the report is kept on one page, so that none has a line or two alone, and its height. */
const endOf = (page: Page, sections: readonly Section[]): { readonly from: number; readonly height: number } => {
  let from = sections.length;
  let height = 0;
  for (const [index, { blocks }] of [...sections.entries()].toReversed()) {
    const words = heightOfWords(page, blocks);
    if (words === null || height + words + HEADING > page.doc.page.height * END_SHARE) break;
    height += words + HEADING;
    from = index;
  }
  return { from, height };
};

const drawSection = (page: Page, section: Section): void => {
  const { doc, root, left, width } = page;
  keepTogether(page, HEADING + leadHeight(page, section.blocks));
  doc.outline.addItem(section.title);
  doc.font("regular").fontSize(9.5).moveDown(0.6);
  root.add(
    doc.struct("H2", {}, () => {
      doc.font("bold").fontSize(13).fillColor(paperColours.text).text(forFont(section.title), left, doc.y, { width });
    }),
  );
  doc.moveDown(0.3);
  drawBlocks(page, section.blocks);
};

/** Page numbers stand outside the tagged text: a reader aloud need not say them. */
const numberPages = ({ doc, left, width }: Page, report: ReportModel): void => {
  const { start, count } = doc.bufferedPageRange();
  for (let index = start; index < start + count; index += 1) {
    doc.switchToPage(index);
    const bottom = doc.page.height - MARGIN;
    // Below the bottom margin pdfkit would open a new page.
    doc.page.margins.bottom = 0;
    doc.markContent("Artifact", { type: "Pagination" });
    doc.font("regular").fontSize(FOOTER).fillColor(paperColours.quiet);
    // A long name makes the footer smaller: it stays on its line, whole.
    const room = (width - PAGE_NUMBER - 1) / doc.widthOfString(forFont(footer(report)));
    doc.fontSize(FOOTER * Math.min(1, Math.max(LEAST_FOOTER_SHARE, room)));
    doc.text(forFont(footer(report)), left, bottom, { width: width - PAGE_NUMBER, lineBreak: false, ellipsis: true });
    doc.fontSize(FOOTER);
    doc.text(`${index - start + 1} / ${count}`, left, bottom, { width, align: "right", lineBreak: false });
    doc.endMarkedContent();
  }
};
