/** The sections of a report. A capability that brings one adds a line here; nothing else has to know. */
import type { ReportContext } from "./context.ts";
import type { Block } from "./model.ts";
import { assumptionBlocks } from "./section/assumptions.ts";
import { changeBlocks } from "./section/changes.ts";
import { craftLifeBlocks } from "./section/craft-life.ts";
import { lossBlocks } from "./section/losses.ts";
import { riskBlocks } from "./section/risk.ts";
import { sortieSheetBlocks } from "./section/sortie-sheets.ts";
import { STUDIES_ID, studyBlocks } from "./section/studies.ts";
import { slackBlocks, supplyBlocks } from "./section/supply.ts";
import { timelineBlocks } from "./section/timeline.ts";
import { verdictBlocks } from "./section/verdict.ts";
import { waysBlocks } from "./section/ways.ts";

export interface SectionKind {
  readonly id: string;
  readonly title: string;
  readonly build: (context: ReportContext) => readonly Block[];
}

export const sectionKinds: readonly SectionKind[] = [
  { id: "verdict", title: "Go or no-go", build: verdictBlocks },
  { id: "risk", title: "How likely it holds", build: riskBlocks },
  { id: "supply", title: "Supply check", build: supplyBlocks },
  { id: "timeline", title: "Levels over time", build: timelineBlocks },
  { id: "flights", title: "Flights and their slack", build: slackBlocks },
  { id: "sorties", title: "Sortie sheets", build: sortieSheetBlocks },
  { id: "craft-life", title: "Craft life", build: craftLifeBlocks },
  { id: "ways", title: "Ways by other vehicles", build: waysBlocks },
  { id: STUDIES_ID, title: "Studies", build: studyBlocks },
  { id: "losses", title: "Losses by month", build: lossBlocks },
  { id: "assumptions", title: "What the numbers rest on", build: assumptionBlocks },
  { id: "changes", title: "What changed", build: changeBlocks },
];

export const allSectionIds: readonly string[] = sectionKinds.map((kind) => kind.id);
