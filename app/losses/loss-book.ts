/** The loss statement of a ledger as it is shown: statements by depot and propellant, booked beside predicted. */
import { PlanningError } from "../contract/failure.ts";
import type { EntitySet } from "../ledger/entities.ts";
import { lossesOf } from "../ledger/past.ts";
import type { LedgerStore } from "../ledger/store.ts";
import { compareLoss, type LossComparison } from "./predicted.ts";
import { composeStatements, type Statement } from "./statement.ts";

/** One depot, propellant and period: all tanks together. */
export interface PeriodComparison {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly depotId: string;
  readonly propellantId: string;
  readonly predictedKg: number;
  readonly bookedKg: number;
  readonly differenceKg: number;
  /** Null where a tank has no gauge reading at both ends. */
  readonly sigmaKg: number | null;
  readonly differenceInSigma: number | null;
  readonly tanks: readonly LossComparison[];
}

export interface LossBook {
  readonly revision: number;
  readonly statements: readonly Statement[];
  readonly comparisons: readonly PeriodComparison[];
}

type BookStore = Pick<LedgerStore, "header" | "statementSums" | "tankMovements" | "readings">;

const checkEdges = (edges: readonly number[]): void => {
  edges.forEach((edge, place) => {
    const before = edges[place - 1];
    if (before !== undefined && !(edge > before)) {
      throw new PlanningError("invalid input", "The edges of the months must rise.", `edges.${place}`);
    }
  });
};

const together = (tanks: readonly LossComparison[]) => {
  const sum = (pick: (tank: LossComparison) => number): number => tanks.reduce((all, tank) => all + pick(tank), 0);
  const predictedKg = sum((tank) => tank.predictedKg);
  const bookedKg = sum((tank) => tank.bookedKg);
  const sigmas = tanks.map((tank) => tank.sigmaKg);
  const sigmaKg = sigmas.includes(null) ? null : Math.hypot(...sigmas.map((sigma) => sigma ?? 0));
  const differenceKg = bookedKg - predictedKg;
  return {
    predictedKg,
    bookedKg,
    differenceKg,
    sigmaKg,
    differenceInSigma: sigmaKg === null ? null : differenceKg / sigmaKg,
  };
};

const BEFORE_ALL = -1;

const comparisonsOf = (
  entities: EntitySet,
  store: BookStore,
  edges: readonly number[],
): readonly PeriodComparison[] => {
  const lastAt = edges.at(-1) ?? BEFORE_ALL;
  const movements = Map.groupBy(store.tankMovements(BEFORE_ALL, lastAt), (move) => move.tankId);
  const readings = Map.groupBy(store.readings(), (reading) => reading.tankId);
  const depotTanks = entities.tank.filter((tank) => tank.ownerKind === "depot");
  const groups = [...Map.groupBy(depotTanks, (tank) => `${tank.ownerId} ${tank.propellantId}`).values()];
  return edges.slice(1).flatMap((untilAt, place) => {
    const fromAt = edges[place] ?? BEFORE_ALL;
    return groups.flatMap((tanks): PeriodComparison[] => {
      const rows = tanks.flatMap((tank) => {
        const own = movements.get(tank.id) ?? [];
        const row = compareLoss(tank.id, own, lossesOf(entities, tank), readings.get(tank.id) ?? [], fromAt, untilAt);
        return row === null ? [] : [row];
      });
      const [tank] = tanks;
      if (tank === undefined || rows.length === 0) return [];
      return [
        { fromAt, untilAt, depotId: tank.ownerId, propellantId: tank.propellantId, ...together(rows), tanks: rows },
      ];
    });
  });
};

/**
 * Statements between rising edges. The comparison walks every movement of the depots' tanks; without it the statement
 * rests on sums alone and takes no longer for a large journal. `entities` are those of one plan case.
 */
export const lossBook = (
  entities: EntitySet,
  store: BookStore,
  edges: readonly number[],
  withComparison: boolean,
): LossBook => {
  checkEdges(edges);
  return {
    revision: store.header().revision,
    statements: composeStatements(store.statementSums(edges)),
    comparisons: withComparison ? comparisonsOf(entities, store, edges) : [],
  };
};
