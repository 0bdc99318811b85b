/** How far two plans differ: plan cases by the one comparison, other rows counted, and the cases that could be taken over. */
import { kindWords } from "../ledger/change-line.ts";
import { type EntityKind, type EntitySet, entityKinds } from "../entity/entities.ts";
import { casePlan } from "../ledger/case-plan.ts";
import { comparePlans, type Difference } from "../ledger/compare-plans.ts";
import type { CaseDifference, CaseOffer, PlanDifference } from "./merge-view.ts";

interface Row {
  readonly id: string;
}

const textsById = (rows: readonly Row[]): ReadonlyMap<string, string> =>
  new Map(rows.map((row) => [row.id, JSON.stringify(row)]));

/** What the comparison of plans speaks of, case by case. */
const PLANNED: readonly EntityKind[] = ["planCase", "flight", "sortie", "campaign", "lossPeriod"];

/** Ids of plan cases that both have. */
const casesOfBoth = (ours: EntitySet, theirs: EntitySet): ReadonlySet<string> =>
  new Set(ours.planCase.flatMap(({ id }) => (theirs.planCase.some((row) => row.id === id) ? [id] : [])));

/**
 * Rows that differ, counted by kind; of plan cases that both have, the comparison says it (`caseDifferences`). `ours`: with
 * what the records imply already in it, so that a status alone is no difference.
 */
export const planDifferences = (ours: EntitySet, theirs: EntitySet): readonly PlanDifference[] => {
  const both = casesOfBoth(ours, theirs);
  return entityKinds.flatMap((kind) => {
    const isCounted = (row: Row): boolean =>
      !PLANNED.includes(kind) ||
      !(both.has(row.id) || ("planCaseId" in row && typeof row.planCaseId === "string" && both.has(row.planCaseId)));
    const here = textsById(ours[kind].filter(isCounted));
    const there = textsById(theirs[kind].filter(isCounted));
    const onlyHere = [...here.keys()].filter((id) => !there.has(id)).length;
    const onlyThere = [...there.keys()].filter((id) => !here.has(id)).length;
    const different = [...here].filter(([id, text]) => there.has(id) && there.get(id) !== text).length;
    const isSame = onlyHere + onlyThere + different === 0;
    return isSame ? [] : [{ kind: kindWords[kind], onlyHere, onlyThere, different }];
  });
};

/** So many differences of one plan case are told one by one. */
const MAX_WORDS = 40;

const sentenceOf = ({ kind, name, change, words }: Difference): string => {
  if (change === "added") return `${name}: only there`;
  if (change === "removed") return `${name}: only here`;
  return kind === "planCase" ? `there: ${words}` : `${name}, there: ${words}`;
};

/** How theirs differs from ours in each plan case that both have: the one comparison of plans, in sentences. */
export const caseDifferences = (ours: EntitySet, theirs: EntitySet): readonly CaseDifference[] =>
  theirs.planCase
    .toSorted((a, b) => a.position - b.position)
    .flatMap(({ id, name }): readonly CaseDifference[] => {
      const [here, there] = [casePlan(ours, id), casePlan(theirs, id)];
      if (here === null || there === null) return [];
      const found = comparePlans(here, there);
      if (found.length === 0) return [];
      return [{ name, words: found.slice(0, MAX_WORDS).map(sentenceOf), more: Math.max(0, found.length - MAX_WORDS) }];
    });

const textOfCase = (plan: EntitySet, planCaseId: string): string =>
  JSON.stringify([
    plan.planCase.filter(({ id }) => id === planCaseId).map(({ position: _place, ...row }) => row),
    ...(["lossPeriod", "campaign", "flight", "sortie", "riskInput"] as const).map((kind) =>
      plan[kind].filter((row) => row.planCaseId === planCaseId),
    ),
  ]);

/** Their cases that ours does not have just so. */
export const caseOffers = (ours: EntitySet, theirs: EntitySet): readonly CaseOffer[] =>
  theirs.planCase
    .toSorted((a, b) => a.position - b.position)
    .filter(({ id }) => textOfCase(ours, id) !== textOfCase(theirs, id))
    .map(({ id, name }) => ({
      id,
      name,
      isHereToo: ours.planCase.some((row) => row.id === id),
      flights: theirs.flight.filter((row) => row.planCaseId === id).length,
      sorties: theirs.sortie.filter((row) => row.planCaseId === id).length,
    }));
