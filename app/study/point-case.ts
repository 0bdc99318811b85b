/** A point of a study as a plan case of its own: the case copied, and in the copy what differs at the point. */
import { DAY_MS } from "../ground/quantity.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Change, Entity, EntityKind, EntitySet } from "../entity/entities.ts";
import { applyChanges } from "../entity/plan-changes.ts";
import { type PlanSnapshot, startOf } from "../entity/plan.ts";
import { copyCase, type CaseCopy } from "../ledger/case-copy.ts";
import type { LossPeriod } from "../entity/loss-period.ts";
import { ratePieces } from "../storage/loss-rate.ts";
import { compile } from "../forecast/compile.ts";
import { createEngine } from "../forecast/propagate.ts";
import type { Cell } from "./columns.ts";
import { refuseValue } from "./resolve.ts";
import { prepareStudy, type StudyBase } from "./study.ts";
import { supplyRow } from "./supply-row.ts";

type FreshId = (kind: EntityKind) => string;
type Row = Readonly<Record<string, unknown>> & { readonly id: string };

/** What differs between a row of the plan and the same row at the point. */
const differing = (before: Row, after: Row): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(after).filter(([key, value]) => JSON.stringify(value) !== JSON.stringify(before[key])),
  );

const SHARED = "That is the same in all plan cases of the ledger, so that a case cannot have its own.";

/** Throws "refused" where the point differs in what plan cases share. */
const refuseShared = (plan: PlanSnapshot, moved: PlanSnapshot): void => {
  const tank = moved.tanks.find(
    (row) => JSON.stringify(row) !== JSON.stringify(plan.tanks.find(({ id }) => id === row.id)),
  );
  if (tank !== undefined)
    throw new PlanningError("refused", `The point has another size or reserve of ${tank.name}. ${SHARED}`, "values");
};

/**
 * The losses of the point, as periods of the case itself. They begin where the forecast does, and a period that begins
 * later outranks an earlier one: so they hold whatever the ledger says for all cases.
 */
const lossesOf = (plan: PlanSnapshot, moved: PlanSnapshot, newId: string, freshId: FreshId): readonly Change[] => {
  if (JSON.stringify(plan.lossPeriods) === JSON.stringify(moved.lossPeriods)) return [];
  return moved.tanks.flatMap(({ id: tankId }) => {
    const of = (periods: readonly LossPeriod[]): readonly LossPeriod[] =>
      periods.filter((row) => row.tankId === tankId);
    if (JSON.stringify(of(plan.lossPeriods)) === JSON.stringify(of(moved.lossPeriods))) return [];
    return ratePieces(of(moved.lossPeriods), startOf(plan), moved.horizonAt + DAY_MS).flatMap(
      (piece): readonly Change[] =>
        piece.period === null
          ? []
          : [
              {
                op: "put",
                kind: "lossPeriod",
                value: {
                  ...piece.period,
                  // Of two periods that begin at one instant the greater id is in force.
                  id: `zz-study-${freshId("lossPeriod")}`,
                  planCaseId: newId,
                  fromAt: piece.fromAt,
                  untilAt: piece.untilAt > moved.horizonAt ? null : piece.untilAt,
                  reason: `study: ${piece.period.reason}`.slice(0, 120),
                },
              },
            ],
    );
  });
};

/** The copied row with what differs at the point; null: it is not flown there. */
const patched = (change: Change, plan: PlanSnapshot, moved: PlanSnapshot): Change | null => {
  if (change.op !== "put" || (change.kind !== "flight" && change.kind !== "sortie")) return change;
  const [before, after] = (
    change.kind === "flight" ? [plan.flights, moved.flights] : [plan.sorties, moved.sorties]
  ).map(
    (rows: readonly { readonly key: string }[]) => rows.find(({ key }) => key === change.value.key) as Row | undefined,
  );
  if (before === undefined) return change;
  if (after === undefined) return null;
  return { ...change, value: { ...change.value, ...differing(before, after) } } as Change;
};

/** Of a flight or sortie that is not flown at the point nothing is stated. */
const isOfFlown = ({ uncertainty: { of } }: Entity<"riskInput">, flown: ReadonlySet<string>): boolean =>
  (of.kind !== "flight" || flown.has(of.flightId)) && (of.kind !== "sortie" || flown.has(of.sortieId));

/** What only the risk knows of the point: stated for the class, in the place of what was stated before. */
const risksOf = (
  copied: readonly Change[],
  plan: PlanSnapshot,
  moved: PlanSnapshot,
  newId: string,
  freshId: FreshId,
): readonly Change[] => {
  if (JSON.stringify(plan.riskInputs) === JSON.stringify(moved.riskInputs)) return copied;
  const kept = new Set(moved.riskInputs.map(({ id }) => id));
  const gone = plan.riskInputs.filter(({ id, planCaseId }) => planCaseId === plan.planCase.id && !kept.has(id));
  const places = plan.riskInputs.filter(({ planCaseId }) => planCaseId === plan.planCase.id).map(({ id }) => id);
  let index = -1;
  const without = copied.filter((change) => {
    if (change.op !== "put" || change.kind !== "riskInput") return true;
    index += 1;
    // Copies stand in the order of the rows that they are of.
    return !gone.some(({ id }) => id === places[index]);
  });
  const known = new Set(plan.riskInputs.map(({ id }) => id));
  const added = moved.riskInputs
    .filter(({ id }) => !known.has(id))
    .map((value): Change => ({
      op: "put",
      kind: "riskInput",
      value: { ...value, id: freshId("riskInput"), planCaseId: newId },
    }));
  return [...without, ...added];
};

/** The plan as it will be in the new case. */
const planAfter = (plan: PlanSnapshot, changes: readonly Change[], newCase: Entity<"planCase">): PlanSnapshot => {
  const shared = plan.lossPeriods.filter(({ planCaseId }) => planCaseId === null);
  const { leftWith, ...rest } = plan;
  const bare: PlanSnapshot = {
    ...rest,
    planCase: newCase,
    horizonAt: newCase.horizonAt,
    lossPeriods: shared,
    campaigns: [],
    flights: [],
    sorties: [],
    riskInputs: [],
  };
  const made = applyChanges(bare, changes);
  if (leftWith === undefined) return made;
  const keys = new Map(plan.sorties.map(({ id, key }) => [id, key]));
  const ids = new Map(made.sorties.map(({ id, key }) => [key, id]));
  return {
    ...made,
    leftWith: leftWith.map((row) => ({ ...row, sortieId: ids.get(keys.get(row.sortieId) ?? "") ?? row.sortieId })),
  };
};

/** How the plan is supplied, in a few figures. */
const supplyOf = (plan: PlanSnapshot): readonly Cell[] => supplyRow(createEngine(compile(plan)).go(), [], false);

const isSame = (a: Cell | undefined, b: Cell | undefined): boolean =>
  a === b || (typeof a === "number" && typeof b === "number" && Math.abs(a - b) < 1e-3);

/**
 * The changes that make the case. Throws "refused" where the point differs in what all plan cases share (the size and
 * reserve of a tank), and where the case would not be supplied as the point is; "not found" and "refused" as
 * {@link copyCase} does.
 */
export const pointCase = (
  entities: EntitySet,
  base: StudyBase,
  values: readonly number[],
  copy: CaseCopy,
  freshId: FreshId,
): readonly Change[] => {
  const { plan } = base;
  const study = prepareStudy(base);
  if (values.length !== study.inputs.length)
    throw new PlanningError("invalid input", `The study has ${study.inputs.length} inputs.`, "values");
  study.inputs.forEach((row, n) => refuseValue(row, values[n] ?? Number.NaN, "values"));
  const moved = study.planAt(values);
  refuseShared(plan, moved);
  const copied = copyCase(entities, copy, freshId).flatMap((change) => patched(change, plan, moved) ?? []);
  const flown = new Set(
    copied.flatMap((change) =>
      change.op === "put" && (change.kind === "flight" || change.kind === "sortie") ? [change.value.id] : [],
    ),
  );
  const withRisks = risksOf(copied, plan, moved, copy.newId, freshId).filter(
    (change) => change.op !== "put" || change.kind !== "riskInput" || isOfFlown(change.value, flown),
  );
  const changes = [
    ...withRisks.map((change): Change =>
      change.op === "put" && change.kind === "planCase"
        ? { ...change, value: { ...change.value, horizonAt: moved.horizonAt } }
        : change,
    ),
    ...lossesOf(plan, moved, copy.newId, freshId),
  ];
  const newCase = changes.find((change) => change.op === "put" && change.kind === "planCase");
  if (newCase?.op !== "put" || newCase.kind !== "planCase") throw new Error("a copy without its case");
  const [wanted, got] = [supplyOf(moved), supplyOf(planAfter(plan, changes, newCase.value))];
  if (!wanted.every((cell, n) => isSame(cell, got[n])))
    throw new PlanningError(
      "refused",
      "A plan case made of this point would not be supplied as the point is: it differs in what all plan cases of the ledger share.",
      "values",
    );
  return changes;
};
