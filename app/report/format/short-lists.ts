/** A report as it is printed: lists of findings that would fill pages are cut, and it is said how many more there are and where. */
import type { Block, ReportModel, Section } from "../model.ts";

/** The sections whose lists grow with the plan; what stands in the others is never cut. */
const growing: ReadonlySet<string> = new Set(["risk", "supply"]);

/** Of a list that is cut, as many items are printed one by one. */
export const ITEMS_ON_PAPER = 12;
/** A list that is this little longer is not worth cutting. */
const SLACK = 3;

const cut = (block: Block): Block => {
  if (block.kind !== "list" || block.items.length <= ITEMS_ON_PAPER + SLACK) return block;
  const rest = block.items.length - ITEMS_ON_PAPER;
  return {
    ...block,
    items: [
      ...block.items.slice(0, ITEMS_ON_PAPER),
      `${String(rest)} more like these: the page (HTML) and the workbook of this report have them all.`,
    ],
  };
};

/** The same report for paper, the printed pages and their preview alike. Nothing is changed but long lists of findings. */
export const withShortLists = (report: ReportModel): ReportModel => ({
  ...report,
  sections: report.sections.map((section): Section =>
    growing.has(section.id) ? { ...section, blocks: section.blocks.map(cut) } : section,
  ),
});
