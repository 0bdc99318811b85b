/** The merge from end to end: compare, decide, make the step, say what it does. The door of this folder. */
import { PlanningError } from "../ground/failure.ts";
import type { LedgerDocument } from "../ledger/ledger-view.ts";
import { kindWords } from "../ledger/change-line.ts";
import type { Change, EntitySet } from "../entity/entities.ts";
import { toKg } from "../ledger/journal.ts";
import { checkEntry } from "../ledger/rules/check-entry.ts";
import { checkPlan } from "../ledger/rules/check-plan.ts";
import { formatMinute } from "../format/time.ts";
import type { Step } from "../ledger/books.ts";
import type { Recorder } from "../records/recorder.ts";
import { refuseStranger } from "./ancestry.ts";
import { applyNews, undecided } from "./applied.ts";
import { type Comparison, type News, compareLedgers } from "./compare.ts";
import { type Sorted, sortNews } from "./conflict.ts";
import { conflictView } from "./conflict-view.ts";
import type { MergeChoices } from "./merge-choices.ts";
import { type MergeStep, mergeStep } from "./merge-step.ts";
import type { MergeOutcome, MergeView } from "./merge-view.ts";
import { type Names, namesIn } from "./names.ts";
import { caseDifferences, caseOffers, planDifferences } from "./plan-differences.ts";
import { recordView } from "./record-words.ts";

export interface MergeInput extends MergeChoices {
  readonly ours: LedgerDocument;
  readonly theirs: LedgerDocument;
  /** Of the other ledger, without folder. */
  readonly fileName: string;
}

export interface Merge {
  readonly view: MergeView;
  readonly step: Step;
}

/** Records of theirs that are shown by name; the rest is counted. */
const MAX_SHOWN = 200;

const authorsOf = (news: readonly News[]): readonly string[] => [
  ...new Set(news.flatMap((item) => (item.did === "write" ? [item.record.entry.author] : []))),
];

const statusLine = (change: Change): string[] => {
  if (change.op !== "put") return [];
  if (change.kind === "flight") {
    const { name, status, departAt, arriveAt } = change.value;
    return [`${name}: ${status}, ${formatMinute(status === "arrived" ? arriveAt : departAt)}`];
  }
  if (change.kind === "sortie") {
    const { name, status, loadAt, returnAt } = change.value;
    return [`${name}: ${status}, ${formatMinute(status === "flown" ? returnAt : loadAt)}`];
  }
  return [];
};

const rowLine = (change: Change): string[] => {
  if (change.op !== "put") return [];
  const { value, kind } = change;
  return [`${kindWords[kind]} ${"name" in value ? value.name : value.id}`];
};

const because = (error: unknown): string => {
  if (error instanceof PlanningError) return error.message;
  throw error;
};

/** What the store would refuse, found before it is asked. */
const ruleFaults = (ours: EntitySet, { step, plan }: MergeStep): string[] => {
  try {
    checkPlan(plan, step.changes, ours);
    step.entries.forEach((entry, i) => checkEntry(plan, entry, `entries.${i}`));
    return [];
  } catch (error) {
    return [because(error)];
  }
};

const blockedBy = (ours: EntitySet, made: MergeStep, { theirs, ours: here }: Comparison, names: Names): string[] => {
  const { overdrafts, tooEarly, amidst } = made.settled;
  const titled = (record: Parameters<typeof recordView>[0] & { did: "write" }) =>
    recordView(record, theirs.entries.get(record.record.entry.id) === record.record ? theirs : here, names);
  return [
    ...overdrafts.map(({ tankId, at, grams, record }) => {
      const named = record === null ? null : titled({ did: "write", record });
      const by = named === null ? "" : ` ${named.title} (${named.author ?? "unknown"}) draws more than is there.`;
      return `${names.tank(tankId)} would hold ${toKg(grams)} kg in the books on ${formatMinute(at)}.${by}`;
    }),
    ...tooEarly.map(({ tankId, opensAt, record }) => {
      const { title } = titled({ did: "write", record });
      return `The books of ${names.tank(tankId)} open on ${formatMinute(opensAt)}; ${title} on ${formatMinute(record.entry.at)} comes before.`;
    }),
    ...amidst.map(({ tankId, measuredAt, record }) => {
      const { title } = titled({ did: "write", record });
      const until = formatMinute(record.entry.at);
      return `${title} was still flowing into ${names.tank(tankId)} until ${until} when the tank was measured at the other site on ${formatMinute(measuredAt)}: what had flowed by then is not known here. Take the reading back there or here, merge, and record it again.`;
    }),
    ...ruleFaults(ours, made),
  ];
};

const outcomeOf = (ours: EntitySet, made: MergeStep, comparison: Comparison, names: Names): MergeOutcome => {
  const { step, rowsAlong, statuses, bookedAnew } = made;
  const isNothing =
    step.changes.length +
      step.entries.length +
      step.readings.length +
      step.withdrawnReadingIds.length +
      step.reversedEntryIds.length +
      (step.relinkedReadings?.length ?? 0) ===
    0;
  return {
    entries: step.entries.length - bookedAnew.length,
    takenBack: step.reversedEntryIds.length - bookedAnew.length,
    bookedAnew: bookedAnew.length,
    readings: step.readings.length,
    withdrawn: step.withdrawnReadingIds.length,
    statuses: [...new Set(statuses.flatMap(statusLine))],
    rowsAlong: rowsAlong.flatMap(rowLine),
    blocked: blockedBy(ours, made, comparison, names),
    isNothing,
  };
};

/** A state of both ledgers in one text: journals are append-only, so counts and last ids tell. */
const fingerprintOf = (documents: readonly LedgerDocument[]): string =>
  documents
    .map(({ entries, readings, entities }) =>
      [
        entries.length,
        entries.at(-1)?.id ?? "",
        readings.length,
        readings.filter((row) => row.isWithdrawn).length,
        Object.values(entities).reduce((sum: number, rows: readonly unknown[]) => sum + rows.length, 0),
      ].join("/"),
    )
    .join(" ");

const viewOf = (
  input: MergeInput,
  comparison: Comparison,
  { conflicts, incoming }: Sorted,
  made: MergeStep,
  authors: readonly string[],
): MergeView => {
  const { ours, theirs, fileName, decisions } = input;
  const names = namesIn(ours.entities, theirs.entities);
  const holderOf = (news: News) => (news.did === "take back" ? comparison.ours : comparison.theirs);
  return {
    fingerprint: fingerprintOf([ours, theirs]),
    fileName,
    programme: theirs.programme,
    authors,
    alike: comparison.alike.size + comparison.alikeReadings,
    onlyHere: comparison.ourNews.filter(({ did }) => did === "write" || did === "read").length,
    incomingCount: incoming.length,
    incoming: incoming.slice(0, MAX_SHOWN).map((news) => recordView(news, holderOf(news), names)),
    conflicts: conflicts.map((conflict) => conflictView(conflict, comparison, names)),
    undecided: undecided(conflicts, decisions).map(({ id }) => id),
    planDifferences: planDifferences(made.plan, theirs.entities),
    caseDifferences: caseDifferences(made.plan, theirs.entities),
    cases: caseOffers(made.plan, theirs.entities),
    outcome: outcomeOf(ours.entities, made, comparison, names),
  };
};

/**
 * What merging their records would do with these decisions (an undecided conflict keeps ours), and the step that does it.
 * Throws "refused" for a ledger of another programme or of no common beginning, and for a choice that is not allowed.
 */
export const mergeLedgers = (input: MergeInput, recorder: Recorder): Merge => {
  const { ours, theirs, fileName, decisions, takeCases } = input;
  refuseStranger(ours, theirs, fileName);
  const comparison = compareLedgers(ours, theirs);
  const sorted = sortNews(comparison);
  const applied = applyNews(sorted, decisions, comparison.theirs.readings);
  const authors = authorsOf(comparison.theirNews);
  const words = { fileName, programme: theirs.programme, authors };
  const made = mergeStep(comparison, applied, takeCases, words, recorder);
  return { view: viewOf(input, comparison, sorted, made, authors), step: made.step };
};
