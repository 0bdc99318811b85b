/** A plan case copied with all its plan, and one taken away with it: as changes of one step. */
import { PlanningError } from "../ground/failure.ts";
import type { Change, EntityKind, EntitySet } from "../entity/entities.ts";
import type { Uncertainty } from "../entity/risk-input.ts";

/** Kinds whose rows belong to one case, in the order in which they may be created. */
const ownedKinds = ["lossPeriod", "campaign", "flight", "sortie", "riskInput"] as const satisfies readonly EntityKind[];
type OwnedKind = (typeof ownedKinds)[number];

const ownedRows = (entities: EntitySet, planCaseId: string) =>
  ownedKinds.flatMap((kind) =>
    entities[kind].filter((row) => row.planCaseId === planCaseId).map((row) => ({ kind, row })),
  );

/** What is stated of a flight or sortie holds for its copy. */
const ofCopies = (uncertainty: Uncertainty, newIds: ReadonlyMap<string, string>): Uncertainty => {
  const { of } = uncertainty;
  const subject =
    of.kind === "flight"
      ? { ...of, flightId: newIds.get(of.flightId) ?? of.flightId }
      : of.kind === "sortie"
        ? { ...of, sortieId: newIds.get(of.sortieId) ?? of.sortieId }
        : of;
  return { ...uncertainty, of: subject } as Uncertainty;
};

const caseOf = (entities: EntitySet, planCaseId: string, field: string) => {
  const planCase = entities.planCase.find((row) => row.id === planCaseId);
  if (planCase === undefined) throw new PlanningError("not found", `There is no plan case ${planCaseId}.`, field);
  return planCase;
};

export interface CaseCopy {
  readonly fromId: string;
  readonly newId: string;
  readonly name: string;
}

/**
 * The changes that make a copy: rows keep their keys, so that cases can be compared, and get ids of their own from
 * `freshId`. The copy stands last in the list. Throws "not found", or "refused" where the id is taken.
 */
export const copyCase = (
  entities: EntitySet,
  { fromId, newId, name }: CaseCopy,
  freshId: (kind: OwnedKind) => string,
): readonly Change[] => {
  const from = caseOf(entities, fromId, "fromId");
  if (entities.planCase.some((row) => row.id === newId))
    throw new PlanningError("refused", `There is a plan case ${newId} already.`, "newId");
  const position = 1 + Math.max(...entities.planCase.map((row) => row.position));
  const rows = ownedRows(entities, fromId);
  const newIds = new Map(rows.map(({ kind, row }) => [row.id, freshId(kind)]));
  const copies = rows.map(({ kind, row }) => {
    const value = { ...row, id: newIds.get(row.id) ?? row.id, planCaseId: newId };
    if ("campaignId" in value) value.campaignId = newIds.get(value.campaignId) ?? value.campaignId;
    if ("uncertainty" in value) value.uncertainty = ofCopies(value.uncertainty, newIds);
    return { op: "put", kind, value } as Change;
  });
  return [{ op: "put", kind: "planCase", value: { ...from, id: newId, name, basedOnId: fromId, position } }, ...copies];
};

/** The changes that take a case away; cases copied from it stay and forget whence they came. Throws "not found". */
export const removeCase = (entities: EntitySet, planCaseId: string): readonly Change[] => {
  caseOf(entities, planCaseId, "planCaseId");
  const rows = ownedRows(entities, planCaseId).toReversed();
  return [
    ...entities.planCase
      .filter((row) => row.basedOnId === planCaseId)
      .map((row) => ({ op: "put", kind: "planCase", value: { ...row, basedOnId: null } }) as const),
    ...rows.map(({ kind, row }) => ({ op: "remove", kind, id: row.id }) as const),
    { op: "remove", kind: "planCase", id: planCaseId },
  ];
};
