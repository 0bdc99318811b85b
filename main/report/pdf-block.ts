/** Draws the blocks of a section: text, lists, facts, the verdict. Nothing is tagged across the edge of a page: room is made before the tag begins. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { Block, Fact, ReportedChance } from "../../app/report/model.ts";
import { paperColours } from "../../app/picture/paper-theme.ts";
import { drawPicture, pictureHeight } from "./pdf-picture.ts";
import { drawTable, leastTableHeight } from "./pdf-table.ts";
import { type Page, forFont, keepTogether } from "./pdf-page.ts";

const TEXT = 9.5;
const LINE_GAP = 1.5;
/** Below a paragraph, points. */
const PARAGRAPH_GAP = 6;

type Verdict = Extract<Block, { readonly kind: "verdict" }>;

/** Draws them one after the other; words that lead up to a chart, a table or a list stand on its page. */
export const drawBlocks = (page: Page, blocks: readonly Block[]): void => {
  for (const [index, block] of blocks.entries()) {
    if (isLead(block)) keepTogether(page, leadHeight(page, blocks.slice(index)));
    drawBlock(page, block);
  }
};

const drawBlock = (page: Page, block: Block): void => {
  switch (block.kind) {
    case "paragraph":
      drawText(page, block.text, TEXT, paperColours.text);
      page.doc.moveDown(0.4);
      return;
    case "list":
      drawItems(page, listItems(block.items), 0);
      return;
    case "facts":
      drawItems(page, factItems(block.items), FACT_GAP);
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

const isLead = (block: Block): boolean => block.kind === "paragraph" || block.kind === "caution";

/** Longer words than this part of a page need nothing beside them. */
const LONGEST_LEAD = 0.15;

/** The room that must be left under a heading: for words that lead up to something, that too. */
export const leadHeight = (page: Page, [first, ...rest]: readonly Block[]): number => {
  const own = leastHeight(page, first);
  const isShort = own <= page.doc.page.height * LONGEST_LEAD;
  const [next] = rest;
  if (first === undefined || next === undefined || !isLead(first) || !isShort) return own;
  // Words after words: those that follow keep what they lead up to themselves.
  const follows = isLead(next) ? leastHeight(page, next) : leadHeight(page, rest);
  return own + PARAGRAPH_GAP + follows;
};

/** The whole of blocks of words, points; null where one is a chart, a table or a verdict. */
export const heightOfWords = (page: Page, blocks: readonly Block[]): number | null =>
  blocks.reduce<number | null>((sum, block) => {
    if (sum === null) return null;
    if (isLead(block)) return sum + leastHeight(page, block) + PARAGRAPH_GAP;
    return block.kind === "list" ? sum + heightOfItems(page, listItems(block.items), 0) + PARAGRAPH_GAP : null;
  }, 0);

const leastHeight = (page: Page, block: Block | undefined): number => {
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
      return leastOfItems(page, listItems(block.items), 0);
    case "facts":
      return leastOfItems(page, factItems(block.items), FACT_GAP);
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

interface Item {
  readonly label: string;
  readonly text: string;
  readonly indent: number;
  readonly size: number;
}

const itemHeight = (page: Page, { label, text, indent, size }: Item): number =>
  Math.max(
    heightOf(page, text, size, page.width - indent),
    label === "–" ? 0 : heightOf(page, label, size, indent - 8),
  );

/** No page has fewer of a list's last items than these, where they are short. */
const LAST_ITEMS = 3;
const LAST_ITEMS_SHARE = 0.2;

const heightOfItems = (page: Page, items: readonly Item[], gap: number): number =>
  items.reduce((sum, item) => sum + itemHeight(page, item) + gap, 0);

/** A list that is not much longer than its last items is not cut. */
const leastOfItems = (page: Page, items: readonly Item[], gap: number): number => {
  const whole = items.length < 2 * LAST_ITEMS ? heightOfItems(page, items, gap) : Infinity;
  return whole <= page.doc.page.height * LAST_ITEMS_SHARE
    ? whole
    : heightOfItems(page, items.slice(0, LAST_ITEMS - 1), gap);
};

const drawItems = (page: Page, items: readonly Item[], gap: number): void => {
  const { doc, root } = page;
  keepTogether(page, leastOfItems(page, items, gap));
  const list = doc.struct("L");
  root.add(list);
  const lastFrom = items.length - LAST_ITEMS;
  for (const [index, item] of items.entries()) {
    if (index > 0 && index === lastFrom) {
      const last = heightOfItems(page, items.slice(index), gap);
      if (last <= doc.page.height * LAST_ITEMS_SHARE) keepTogether(page, last);
    }
    drawItem(page, list, item);
    doc.y += gap;
  }
  list.end();
  doc.moveDown(0.4);
};

/** One item of a list: its label, and its text beside it. */
const drawItem = (page: Page, list: PDFKit.PDFStructureElement, item: Item): void => {
  const { doc, left, width } = page;
  const { label, text, indent, size } = item;
  const beside = width - indent;
  const high = itemHeight(page, item);
  keepTogether(page, high);
  const top = doc.y;
  const element = doc.struct("LI");
  list.add(element);
  element.add(
    doc.struct("Lbl", {}, () => {
      doc
        .font("regular")
        .fontSize(size)
        .fillColor(label === "–" ? paperColours.text : paperColours.quiet);
      doc.text(forFont(label), left, top, { width: indent - 2, lineGap: LINE_GAP });
    }),
  );
  element.add(
    doc.struct("LBody", {}, () => {
      doc.font("regular").fontSize(size).fillColor(paperColours.text);
      doc.text(forFont(text), left + indent, top, { width: beside, lineGap: LINE_GAP });
    }),
  );
  element.end();
  doc.x = left;
  doc.y = top + high;
};

const FACT_GAP = 2;

const listItems = (items: readonly string[]): readonly Item[] =>
  items.map((text) => ({ label: "–", text, indent: DASH, size: TEXT }));

const factItems = (facts: readonly Fact[]): readonly Item[] =>
  facts.map(({ term, text }) => ({ label: term, text, indent: TERM, size: FACT }));
