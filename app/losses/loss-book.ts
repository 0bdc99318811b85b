/** The loss statement of a ledger as it is shown: statements by depot and propellant, booked beside predicted. */
import { PlanningError } from "../ground/failure.ts";
import type { EntitySet } from "../entity/entities.ts";
import { lossesOf } from "../ledger/past.ts";
import type { LedgerBooks } from "../ledger/books.ts";
import { compareLoss, type LossComparison } from "./predicted.ts";
import { asHappened, type TanksOfBooks } from "./as-happened.ts";
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
  /** As booked: loss stands in the month of the reading or closing that booked it. */
  readonly statements: readonly Statement[];
  /** The same books as they happened: loss stands in the month in which it went. Null: not asked for. */
  readonly happened: readonly Statement[] | null;
  readonly comparisons: readonly PeriodComparison[];
}

type BookStore = Pick<LedgerBooks, "header" | "statementSums" | "tankMovements" | "lossBookings" | "readings">;

const checkEdges = (edges: readonly number[]): void => {
  edges.forEach((edge, index) => {
    const before = edges[index - 1];
    if (before !== undefined && !(edge > before)) {
      throw new PlanningError("invalid input", "The edges of the months must rise.", `edges.${index}`);
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

/** Depot tanks with all that moved in them, whenever: a later reading tells of months before it. */
const tanksOf = (entities: EntitySet, store: BookStore): TanksOfBooks => {
  const movements = Map.groupBy(store.tankMovements(BEFORE_ALL, Number.MAX_SAFE_INTEGER), (move) => move.tankId);
  return new Map(
    entities.tank
      .filter((tank) => tank.ownerKind === "depot")
      .map((tank) => [tank.id, { movements: movements.get(tank.id) ?? [], losses: lossesOf(entities, tank) }]),
  );
};

const comparisonsOf = (
  entities: EntitySet,
  store: BookStore,
  books: TanksOfBooks,
  edges: readonly number[],
): readonly PeriodComparison[] => {
  const readings = Map.groupBy(store.readings(), (reading) => reading.tankId);
  const depotTanks = entities.tank.filter((tank) => tank.ownerKind === "depot");
  const groups = [...Map.groupBy(depotTanks, (tank) => `${tank.ownerId} ${tank.propellantId}`).values()];
  return edges.slice(1).flatMap((untilAt, index) => {
    const fromAt = edges[index] ?? BEFORE_ALL;
    return groups.flatMap((tanks): PeriodComparison[] => {
      const rows = tanks.flatMap((tank) => {
        const { movements, losses } = books.get(tank.id) ?? { movements: [], losses: lossesOf(entities, tank) };
        const row = compareLoss(tank.id, movements, losses, readings.get(tank.id) ?? [], fromAt, untilAt);
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
 * Statements between rising edges: a period runs from the end of one instant to the end of the next, so that an entry at
 * exactly midnight belongs to the month that ends there. The comparison and the statement as it happened walk every
 * movement of the depots' tanks; without them the statement rests on sums alone and takes no longer for a large journal.
 * `entities` are those of one plan case: its rates say when a booked loss happened.
 */
export const lossBook = (
  entities: EntitySet,
  store: BookStore,
  edges: readonly number[],
  withComparison: boolean,
): LossBook => {
  checkEdges(edges);
  const statements = composeStatements(store.statementSums(edges));
  const { revision } = store.header();
  if (!withComparison) return { revision, statements, happened: null, comparisons: [] };
  const books = tanksOf(entities, store);
  const bookings = store.lossBookings(edges[0] ?? BEFORE_ALL);
  const happened = composeStatements(statements.flatMap((statement) => asHappened(statement, bookings, books)));
  return { revision, statements, happened, comparisons: comparisonsOf(entities, store, books, edges) };
};
