/** Reads from the ledger what a report is made from. The supply checks, which take longest, are asked of the caller. */
import type {
  CheckedCase,
  EarlierIssue,
  ReportChoices,
  ReportedRisk,
  ReportedStudy,
  ReportInputs,
} from "../../app/report/context.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { type TankFitQuestion, tankFitQuestion } from "../../app/losses/fit/fit-question.ts";
import { usualPartAt } from "../../app/losses/fit/usual-part.ts";
import { lossBook } from "../../app/losses/loss-book.ts";
import { calendarMonthEdges } from "../../app/losses/months.ts";
import { parseFinished } from "../../app/report/finished.ts";
import type { AskedChoices } from "../../app/ledger/report-request.ts";
import { STUDIES_ID } from "../../app/report/section/studies.ts";
import { allSectionIds } from "../../app/report/sections.ts";
import type { SupplyAnswer } from "../../app/supply/answer.ts";

/** As many steps of editing as a report may have to tell of. */
const MAX_CHANGES = 1000;

/** Who makes the report, when, and as what. */
export type Making = Pick<ReportInputs, "author" | "issuedAt" | "issueNumber" | "note">;

/** What takes time and is asked of others. */
export interface ReportAnswers {
  check(view: PlanView): Promise<SupplyAnswer>;
  risk(): Promise<ReportedRisk | null>;
  /** Reads the ledger at once. */
  studies(): readonly ReportedStudy[];
}

/** The instants of the first records of the tanks. */
const firstRecords = (view: PlanView): readonly number[] =>
  view.past.flatMap(({ segments }) => segments.slice(0, 1).map(({ startAt }) => startAt));

/** Where no study is kept there is no section of them, unless nothing else was asked for. */
const sectionsOf = ({ sectionIds }: AskedChoices, hasStudies: boolean): readonly string[] => {
  const ids = sectionIds ?? allSectionIds;
  const others = ids.filter((id) => id !== STUDIES_ID);
  return hasStudies || others.length === 0 ? ids : others;
};

const decided = (asked: AskedChoices, view: PlanView, hasStudies: boolean): ReportChoices => ({
  fromAt: asked.fromAt ?? Math.min(view.plan.asOfAt, ...firstRecords(view)),
  untilAt: asked.untilAt ?? view.plan.horizonAt,
  massUnit: asked.massUnit,
  paper: asked.paper,
  sectionIds: sectionsOf(asked, hasStudies),
  // Left out where it is not asked for, so that the hash of a report stays what it was.
  ...(asked.departureWindows === true ? { departureWindows: true } : {}),
  ...(asked.leaveBy === true ? { leaveBy: true } : {}),
});

/** The months that touch the period, as far as there are records. */
const lossesIn = (store: LedgerStore, view: PlanView, choices: ReportChoices) => {
  const fromAt = Math.max(choices.fromAt, Math.min(...firstRecords(view)));
  const untilAt = Math.min(choices.untilAt, view.plan.asOfAt);
  if (!(fromAt < untilAt)) return null;
  return lossBook(store.entitiesOfCase(view.plan.planCase.id), store, calendarMonthEdges(fromAt, untilAt), true);
};

/** A fit for each depot tank that has readings in the recorded part of the period; none where it is not asked for. */
const fitQuestionsIn = (store: LedgerStore, view: PlanView, choices: ReportChoices): readonly TankFitQuestion[] => {
  const { fromAt } = choices;
  const untilAt = Math.min(choices.untilAt, view.plan.asOfAt);
  if (!(fromAt < untilAt) || !choices.sectionIds.includes("losses")) return [];
  const entities = store.entitiesOfCase(view.plan.planCase.id);
  const isRead = (tankId: string): boolean =>
    view.readings.some((row) => row.tankId === tankId && !row.isWithdrawn && row.at >= fromAt && row.at <= untilAt);
  return view.plan.tanks
    .filter(({ id, ownerKind }) => ownerKind === "depot" && isRead(id))
    .map(({ id: tankId }) =>
      tankFitQuestion(entities, store, {
        tankId,
        fromAt,
        untilAt,
        fitted: usualPartAt(view.plan.lossPeriods, tankId, untilAt),
        rateChanges: "apart",
        held: null,
        leftOutIds: [],
      }),
    );
};

/** The last issue of a plan case; null: there is none, or it can no longer be read. */
const lastIssue = (store: LedgerStore, planCaseId: string): EarlierIssue | null => {
  const last = store.reportIssues().findLast((issue) => issue.planCaseId === planCaseId);
  if (last === undefined) return null;
  try {
    const { sorties } = parseFinished(store.reportIssue(last.number).content);
    return { number: last.number, issuedAt: last.issuedAt, sorties };
  } catch (error) {
    // A damaged issue is for the integrity check to tell of; it must not keep the next from being made.
    if (error instanceof PlanningError) return null;
    throw error;
  }
};

/**
 * Throws "not found" for a plan case that the ledger does not have, "invalid input" for a period that ends before it
 * begins. The ledger is read whole before the first wait, so that all parts are of one revision.
 */
export const reportInputs = async (
  store: LedgerStore,
  asked: AskedChoices,
  making: Making,
  answers: ReportAnswers,
): Promise<ReportInputs> => {
  const { programme, isDemonstration } = store.header();
  const books = store.books();
  const view = planView(store, asked.planCaseId);
  const compared = asked.compareId === null ? null : planView(store, asked.compareId);
  const studies = answers.studies();
  const choices = decided(asked, view, studies.length > 0);
  if (choices.untilAt <= choices.fromAt)
    throw new PlanningError("invalid input", "The period of the report ends before it begins.", "untilAt");
  const losses = lossesIn(store, view, choices);
  const fitQuestions = fitQuestionsIn(store, view, choices);
  const ledgerId = store.identity();
  const calledOff = store.calledOff(asked.planCaseId);
  const since = lastIssue(store, asked.planCaseId);
  const changes = store.changesSince(since?.number ?? null, MAX_CHANGES);
  const checked = async (one: PlanView): Promise<CheckedCase> => ({ view: one, supply: await answers.check(one) });
  const main = await checked(view);
  return {
    programme,
    isDemonstration,
    ...making,
    choices,
    books,
    main,
    compared: compared && (await checked(compared)),
    risk: await answers.risk(),
    studies,
    losses,
    fitQuestions,
    ledgerId,
    calledOff,
    since,
    changes: since === null ? changes.filter(({ state }) => state === "done") : changes,
  };
};
