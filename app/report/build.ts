/** Builds the report from its context. Pure: the same context gives the same report. */
import { CAUTION } from "../contract/caution.ts";
import { PlanningError } from "../contract/failure.ts";
import type { ReportContext } from "./context.ts";
import type { Block, ReportModel, Section } from "./model.ts";
import { sectionKinds } from "./sections.ts";

/** The model of a report. Throws "invalid input" for a section that does not exist, or a period that ends before it starts. */
export const buildReport = (context: ReportContext): ReportModel => {
  const { choices } = context;
  if (choices.untilAt <= choices.fromAt)
    throw new PlanningError("invalid input", "The period of the report ends before it begins.", "untilAt");
  const sections = choices.sectionIds.map((id): Section => {
    const kind = sectionKinds.find((each) => each.id === id);
    if (!kind) throw new PlanningError("invalid input", `There is no report section “${id}”.`, "sectionIds");
    return { id, title: kind.title, blocks: kind.build(context).filter(hasContent) };
  });
  return {
    title: `${context.programme}: ${context.main.view.plan.planCase.name}`,
    programme: context.programme,
    caseName: context.main.view.plan.planCase.name,
    author: context.author,
    issuedAt: context.issuedAt,
    issueNumber: context.issueNumber,
    note: context.note,
    inputHash: context.inputHash,
    massUnit: choices.massUnit,
    paper: choices.paper,
    sections: [...sections, { id: "caution", title: "Caution", blocks: cautionBlocks(context) }],
  };
};

/** A table without rows or a list without items is left out. */
const hasContent = (block: Block): boolean =>
  block.kind === "table" ? block.rows.length > 0 : block.kind === "list" ? block.items.length > 0 : true;

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
