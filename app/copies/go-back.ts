/** What going back to a copy would change: the ledger as it is beside the ledger as it was. Pure. */
import type { LedgerDocument } from "../ledger/ledger-view.ts";
import { casePlan } from "../ledger/case-plan.ts";
import { comparePlans, type Difference } from "../ledger/compare-plans.ts";
import { type EntityKind, entityKinds, type EntitySet } from "../entity/entities.ts";
import type { CaseGoingBack, GoingBack, KeptCopy, RowsGoingBack } from "./kept-copy.ts";

/** What plans say; all else is what they are made with. */
const PLANNED: readonly EntityKind[] = ["planCase", "flight", "sortie", "campaign", "lossPeriod"];

/** So many changes of a case are told one by one. */
const MAX_WORDS = 40;

export interface LedgerState {
  readonly document: LedgerDocument;
  readonly revision: number;
  /** The newest step of its edit history and when it was made; null: it has none. */
  readonly newestStep: { readonly id: number; readonly at: number } | null;
}

const count = (differences: readonly Difference[], kind: Difference["kind"]): number =>
  differences.filter((each) => each.kind === kind).length;

const wordsOf = ({ name, change, words }: Difference): string => {
  if (change === "added") return `${name} comes back`;
  return change === "removed" ? `${name} goes` : `${name} ${words}`;
};

const caseGoingBack = (now: EntitySet, then: EntitySet, id: string): readonly CaseGoingBack[] => {
  const [ours, theirs] = [casePlan(now, id), casePlan(then, id)];
  const only = ours ?? theirs;
  if (only === null) return [];
  if (ours === null || theirs === null)
    return [
      {
        name: only.planCase.name,
        change: ours === null ? "comes back" : "goes",
        flights: only.flights.length,
        sorties: only.sorties.length,
        words: [],
      },
    ];
  const differences = comparePlans(ours, theirs);
  const rows = (["planCase", "flight", "sortie", "campaign", "lossPeriod"] as const).map((kind) =>
    rowsGoingBack(
      now[kind].filter((row) => row.id === id || ("planCaseId" in row && row.planCaseId === id)),
      then[kind].filter((row) => row.id === id || ("planCaseId" in row && row.planCaseId === id)),
    ),
  );
  if (rows.every(isNothing) && differences.length === 0) return [];
  return [
    {
      name: theirs.planCase.name,
      change: "changes",
      flights: count(differences, "flight"),
      sorties: count(differences, "sortie"),
      words: differences.slice(0, MAX_WORDS).map(wordsOf),
    },
  ];
};

const rowsGoingBack = (
  now: readonly { readonly id: string }[],
  then: readonly { readonly id: string }[],
): RowsGoingBack => {
  const texts = new Map(now.map((row) => [row.id, JSON.stringify(row)]));
  let [back, changed] = [0, 0];
  for (const row of then) {
    const text = texts.get(row.id);
    if (text === undefined) back += 1;
    else if (text !== JSON.stringify(row)) changed += 1;
    texts.delete(row.id);
  }
  return { gone: texts.size, back, changed };
};

const isNothing = ({ gone, back, changed }: RowsGoingBack): boolean => gone + back + changed === 0;

const sum = (parts: readonly RowsGoingBack[]): RowsGoingBack => ({
  gone: parts.reduce((all, { gone }) => all + gone, 0),
  back: parts.reduce((all, { back }) => all + back, 0),
  changed: parts.reduce((all, { changed }) => all + changed, 0),
});

/** Steps of one history are numbered on; a copy whose newest step the ledger does not have is of another history. */
const editsSince = (now: LedgerState, then: LedgerState, stepAt: (id: number) => number | null): number | null => {
  if (now.revision < then.revision) return null;
  if (then.newestStep !== null && stepAt(then.newestStep.id) !== then.newestStep.at) return null;
  return now.revision - then.revision;
};

/** `stepAt`: when a step of the ledger as it is was made; null: it has none of that number. */
export const goingBack = (
  copy: KeptCopy,
  now: LedgerState,
  then: LedgerState,
  stepAt: (id: number) => number | null,
): GoingBack => {
  const [ours, theirs] = [now.document.entities, then.document.entities];
  const ids = new Set([...ours.planCase, ...theirs.planCase].map(({ id }) => id));
  const cases = [...ids].flatMap((id) => caseGoingBack(ours, theirs, id));
  const others = sum(
    entityKinds.filter((kind) => !PLANNED.includes(kind)).map((kind) => rowsGoingBack(ours[kind], theirs[kind])),
  );
  const entries = rowsGoingBack(now.document.entries, then.document.entries);
  const readings = rowsGoingBack(now.document.readings, then.document.readings);
  const issuesGone = Math.max(0, (now.document.reportIssues ?? []).length - (then.document.reportIssues ?? []).length);
  const since = editsSince(now, then, stepAt);
  return {
    copy,
    revision: now.revision,
    editsSince: since,
    cases,
    others,
    entries,
    readings,
    issuesGone,
    isNothing:
      since === 0 &&
      cases.length === 0 &&
      [others, entries, readings].every(isNothing) &&
      issuesGone === 0 &&
      now.document.asOfAt === then.document.asOfAt,
  };
};
