/** Draws the blocks of a section: text, lists, facts, the verdict. Nothing is tagged across the edge of a page: room is made before the tag begins. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { Block, Fact, ReportedChance } from "../../app/report/model.ts";
import { paperColours } from "../../app/report/picture/colour.ts";
import { drawPicture, pictureHeight } from "./pdf-picture.ts";
import { drawTable, leastTableHeight } from "./pdf-table.ts";
import { type Page, forFont, keepTogether } from "./pdf-page.ts";

const TEXT = 9.5;
const LINE_GAP = 1.5;

type Verdict = Extract<Block, { readonly kind: "verdict" }>;

export const drawBlock = (page: Page, block: Block): void => {
  switch (block.kind) {
    case "paragraph":
      drawText(page, block.text, TEXT, paperColours.text);
      page.doc.moveDown(0.4);
      return;
    case "list":
      drawList(page, block.items);
      return;
    case "facts":
      drawFacts(page, block.items);
      return;
    case "verdict":
      drawVerdict(page, block);
      return;
    case "caution":
      drawText(page, block.text, TEXT, paperColours.warning);
      page.doc.moveDown(0.4);
      return;
    case "chart":
      drawPicture(page, block);
      return;
    case "table":
      drawTable(page, block);
      return;
    default:
      return missingCase(block);
  }
};

/** The room that must be left under a heading for what it heads to stand with it. */
export const leastHeight = (page: Page, block: Block | undefined): number => {
  switch (block?.kind) {
    case "chart":
      return pictureHeight(page, block);
    case "table":
      return leastTableHeight(page, block);
    case "paragraph":
    case "caution":
      return heightOf(page, block.text, TEXT);
    case "verdict":
      return 80;
    case "list":
      return heightOf(page, block.items[0] ?? "", TEXT);
    case "facts":
      return heightOf(page, block.items[0]?.text ?? "", TEXT);
    case undefined:
      return 0;
    default:
      return missingCase(block);
  }
};

const heightOf = ({ doc, width }: Page, text: string, size: number, within = width): number =>
  doc.font("regular").fontSize(size).heightOfString(forFont(text), { width: within, lineGap: LINE_GAP });

const drawText = (page: Page, text: string, size: number, colour: string): void => {
  const { doc, root, left, width } = page;
  keepTogether(page, heightOf(page, text, size));
  root.add(
    doc.struct("P", {}, () => {
      doc
        .font("regular")
        .fontSize(size)
        .fillColor(colour)
        .text(forFont(text), left, doc.y, { width, lineGap: LINE_GAP });
    }),
  );
};

const FIGURE = 13;

/** The figure large, its words beside it on the same line of writing. */
const drawChance = (page: Page, { figure, words }: ReportedChance): void => {
  const { doc, root, left, width } = page;
  const base = doc.y + FIGURE + 2;
  const beside = doc.font("bold").fontSize(FIGURE).widthOfString(forFont(figure)) + 7;
  const high = heightOf(page, words, TEXT, width - beside);
  root.add(
    doc.struct("P", {}, () => {
      doc.font("bold").fontSize(FIGURE).fillColor(paperColours.text);
      doc.text(forFont(figure), left, base, { baseline: "alphabetic", lineBreak: false });
      doc.font("regular").fontSize(TEXT);
      doc.text(forFont(words), left + beside, base, {
        baseline: "alphabetic",
        width: width - beside,
        lineGap: LINE_GAP,
      });
    }),
  );
  doc.x = left;
  doc.y = base - TEXT + high;
};

const drawVerdict = (page: Page, { holds, word, sentence, chance }: Verdict): void => {
  const { doc, root, left, width } = page;
  root.add(
    doc.struct("P", {}, () => {
      doc
        .font("bold")
        .fontSize(26)
        .fillColor(holds ? paperColours.text : paperColours.warning);
      doc.text(forFont(word), left, doc.y, { width });
      doc.font("regular").fontSize(11).fillColor(paperColours.text);
      doc.text(forFont(sentence), left, doc.y, { width, lineGap: LINE_GAP });
    }),
  );
  if (chance !== undefined) {
    drawChance(page, chance);
  }
  doc.moveDown(0.5);
};

/** Where the text of an item begins, from its label. */
const DASH = 12;
const TERM = 84;
const FACT = 8.5;

/** One item of a list: its label, and its text beside it. */
const drawItem = (
  page: Page,
  list: PDFKit.PDFStructureElement,
  {
    label,
    text,
    indent,
    size,
  }: { readonly label: string; readonly text: string; readonly indent: number; readonly size: number },
): void => {
  const { doc, left, width } = page;
  const beside = width - indent;
  const high = Math.max(
    heightOf(page, text, size, beside),
    label === "–" ? 0 : heightOf(page, label, size, indent - 8),
  );
  keepTogether(page, high);
  const top = doc.y;
  const item = doc.struct("LI");
  list.add(item);
  item.add(
    doc.struct("Lbl", {}, () => {
      doc
        .font("regular")
        .fontSize(size)
        .fillColor(label === "–" ? paperColours.text : paperColours.quiet);
      doc.text(forFont(label), left, top, { width: indent - 2, lineGap: LINE_GAP });
    }),
  );
  item.add(
    doc.struct("LBody", {}, () => {
      doc.font("regular").fontSize(size).fillColor(paperColours.text);
      doc.text(forFont(text), left + indent, top, { width: beside, lineGap: LINE_GAP });
    }),
  );
  item.end();
  doc.x = left;
  doc.y = top + high;
};

const drawList = (page: Page, items: readonly string[]): void => {
  const list = page.doc.struct("L");
  page.root.add(list);
  for (const text of items) drawItem(page, list, { label: "–", text, indent: DASH, size: TEXT });
  list.end();
  page.doc.moveDown(0.4);
};

const drawFacts = (page: Page, facts: readonly Fact[]): void => {
  const list = page.doc.struct("L");
  page.root.add(list);
  for (const { term, text } of facts) {
    drawItem(page, list, { label: term, text, indent: TERM, size: FACT });
    page.doc.y += 2;
  }
  list.end();
  page.doc.moveDown(0.4);
};
