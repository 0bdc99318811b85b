/** How far two plans differ: counted by kind, and the cases that could be taken over. Nothing of it is merged. */
import { kindWords } from "../ledger/change-line.ts";
import { type EntitySet, entityKinds } from "../entity/entities.ts";
import type { CaseOffer, PlanDifference } from "./merge-view.ts";

interface Row {
  readonly id: string;
}

const textsById = (rows: readonly Row[]): ReadonlyMap<string, string> =>
  new Map(rows.map((row) => [row.id, JSON.stringify(row)]));

/** `ours`: with what the records imply already in it, so that a status alone is no difference. */
export const planDifferences = (ours: EntitySet, theirs: EntitySet): readonly PlanDifference[] =>
  entityKinds.flatMap((kind) => {
    const here = textsById(ours[kind]);
    const there = textsById(theirs[kind]);
    const onlyHere = [...here.keys()].filter((id) => !there.has(id)).length;
    const onlyThere = [...there.keys()].filter((id) => !here.has(id)).length;
    const different = [...here].filter(([id, text]) => there.has(id) && there.get(id) !== text).length;
    const isSame = onlyHere + onlyThere + different === 0;
    return isSame ? [] : [{ kind: kindWords[kind], onlyHere, onlyThere, different }];
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
