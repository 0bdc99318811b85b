/** Builds the report from its context. Pure: the same context gives the same report. */
import { CAUTION } from "../words/caution.ts";
import { PlanningError } from "../ground/failure.ts";
import { lookBackSentence } from "../ledger/look-back-words.ts";
import type { ReportContext } from "./context.ts";
import type { Block, ReportModel, Section } from "./model.ts";
import { sectionKinds } from "./sections.ts";

const NOTHING: Block = { kind: "paragraph", text: "Nothing of this is in the plan or the records of the period." };

/** The model of a report. Throws "invalid input" for a section that does not exist, or a period that ends before it starts. */
export const buildReport = (context: ReportContext): ReportModel => {
  const { choices } = context;
  if (choices.untilAt <= choices.fromAt)
    throw new PlanningError("invalid input", "The period of the report ends before it begins.", "untilAt");
  const sections = choices.sectionIds.map((id): Section => {
    const kind = sectionKinds.find((each) => each.id === id);
    if (!kind) throw new PlanningError("invalid input", `There is no report section “${id}”.`, "sectionIds");
    const blocks = kind.build(context).filter(hasContent);
    // A heading with nothing below it leaves open whether something was forgotten.
    return { id, title: kind.title, blocks: blocks.length > 0 ? blocks : [NOTHING] };
  });
  const lookBack = lookBackSentence(context.main.view.plan);
  const [first] = sections;
  // Whatever stands first: what leaves records out says so before it says anything else.
  if (lookBack !== null && first !== undefined)
    sections[0] = { ...first, blocks: [{ kind: "paragraph", text: lookBack }, ...first.blocks] };
  return {
    title: `${context.programme}: ${context.main.view.plan.planCase.name}`,
    programme: context.programme,
    caseName: context.main.view.plan.planCase.name,
    author: context.author,
    issuedAt: context.issuedAt,
    issueNumber: context.issueNumber,
    asOfAt: context.main.view.plan.asOfAt,
    note: context.note,
    inputHash: context.inputHash,
    ...(context.books.entries === 0 ? {} : { booksDigest: context.books.digest }),
    massUnit: choices.massUnit,
    paper: choices.paper,
    sections: [...sections, booksSection(context), { id: "caution", title: "Caution", blocks: cautionBlocks(context) }],
  };
};

/** By what a reader can tell that a report and a ledger belong together, and that nothing in the books was changed since. */
const booksSection = ({ books, inputHash }: ReportContext): Section => ({
  id: "books",
  title: "The books that this rests on",
  blocks: [
    {
      kind: "list",
      items: [
        books.entries === 0 ? "Journal entries: none." : `Journal entries: ${books.entries}, SHA-256 ${books.digest}.`,
        `Plan, records and choices as they were used: SHA-256 ${inputHash}.`,
      ],
    },
    {
      kind: "paragraph",
      text: "The check of a ledger file prints the same digest for the same books. Where entries came later it is another; given this one (coldstock verify --books, its first eight digits are enough), the check says whether these books stand unchanged at the beginning of the ledger.",
    },
  ],
});

/** A table without rows or a list without items is left out. */
const hasContent = (block: Block): boolean =>
  block.kind === "table"
    ? block.rows.length > 0
    : block.kind === "list" || block.kind === "facts"
      ? block.items.length > 0
      : true;

const cautionBlocks = (context: ReportContext): Section["blocks"] => [
  { kind: "caution", text: CAUTION },
  ...(context.isDemonstration
    ? [
        {
          kind: "paragraph",
          text: "This report is on a demonstration ledger: its depots, craft, plans and records are invented.",
        } as const,
      ]
    : []),
];
