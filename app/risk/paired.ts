/** Differences between two runs under the same draws, replication by replication. */
import type { Dropped, Driver, Estimate, RiskDifference } from "./answer.ts";
import { meanOf, shareOf } from "./estimate.ts";
import { PAIRED } from "./run-blocks.ts";

/** What became of every sortie in every replication, and which sorties these are (by key). */
export interface OutcomeTable {
  readonly keys: readonly string[];
  /** [replication × sorties + sortie], values of PAIRED. */
  readonly outcomes: Uint8Array;
}

const replicationsOf = ({ keys, outcomes }: OutcomeTable): number => outcomes.length / Math.max(1, keys.length);

/** Tables of successive blocks put together. */
export const joinTables = (keys: readonly string[], parts: readonly Uint8Array[]): OutcomeTable => {
  const outcomes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    outcomes.set(part, at);
    at += part.length;
  }
  return { keys, outcomes };
};

/** Per replication: the fewest that any sortie reached, and how many flew. */
const summary = (table: OutcomeTable) => {
  const sorties = table.keys.length;
  const n = replicationsOf(table);
  const least = new Uint8Array(n);
  const flown = new Uint16Array(n);
  for (let r = 0; r < n; r += 1) {
    let worst: number = PAIRED.fliesWhenPlanned;
    for (let sortie = 0; sortie < sorties; sortie += 1) {
      const outcome = table.outcomes[r * sorties + sortie] as number;
      if (outcome < worst) worst = outcome;
      if (outcome >= PAIRED.flies) flown[r] = (flown[r] as number) + 1;
    }
    least[r] = worst;
  }
  return { n, least, flown };
};

/** The mean of b − a over replications, of what `valueOf` says of each. */
const difference = (n: number, a: (r: number) => number, b: (r: number) => number): Estimate => {
  let sum = 0;
  let squares = 0;
  for (let r = 0; r < n; r += 1) {
    const d = b(r) - a(r);
    sum += d;
    squares += d * d;
  }
  const mean = meanOf(sum, squares, n);
  // No replication differed: that is not certainty. Three of them might, at the edge of a 95 % interval.
  return squares === 0 && n > 0 ? { value: 0, standardError: Math.sqrt(1.5) / n } : mean;
};

const isAt = (value: number | undefined, least: number): number => ((value ?? 0) >= least ? 1 : 0);

/** The second minus the first; sorties that both have, by key. */
export const differenceOf = (
  planCaseIds: readonly [string, string],
  first: OutcomeTable,
  second: OutcomeTable,
): RiskDifference => {
  const a = summary(first);
  const b = summary(second);
  const n = Math.min(a.n, b.n);
  const whole = (least: number) =>
    difference(
      n,
      (r) => isAt(a.least[r], least),
      (r) => isAt(b.least[r], least),
    );
  return {
    planCaseIds,
    replications: n,
    allFlyWhenPlanned: whole(PAIRED.fliesWhenPlanned),
    allFly: whole(PAIRED.flies),
    sortiesFlown: difference(
      n,
      (r) => a.flown[r] ?? 0,
      (r) => b.flown[r] ?? 0,
    ),
    sorties: first.keys.flatMap((key, i) => {
      const j = second.keys.indexOf(key);
      if (j < 0) return [];
      const one = (least: number) =>
        difference(
          n,
          (r) => isAt(first.outcomes[r * first.keys.length + i], least),
          (r) => isAt(second.outcomes[r * second.keys.length + j], least),
        );
      return [{ key, fliesWhenPlanned: one(PAIRED.fliesWhenPlanned), flies: one(PAIRED.flies) }];
    }),
  };
};

/** What freezing an input, and making it certain, do. */
export const driverOf = (inputId: string, base: OutcomeTable, frozen: OutcomeTable, certain: OutcomeTable): Driver => {
  const one = differenceOf(["", ""], base, frozen);
  const two = differenceOf(["", ""], base, certain);
  return {
    inputId,
    frozen: one.allFlyWhenPlanned,
    certain: two.allFlyWhenPlanned,
    flownFrozen: one.sortiesFlown,
    flownCertain: two.sortiesFlown,
  };
};

/** Greatest effect first, however it works. */
export const rankDrivers = (drivers: readonly Driver[]): readonly Driver[] => {
  const weight = ({ frozen, certain }: Driver) => Math.max(Math.abs(frozen.value), Math.abs(certain.value));
  const flown = ({ flownFrozen, flownCertain }: Driver) =>
    Math.max(Math.abs(flownFrozen.value), Math.abs(flownCertain.value));
  return drivers.toSorted((a, b) => weight(b) - weight(a) || flown(b) - flown(a) || (a.inputId < b.inputId ? -1 : 1));
};

export const droppedOf = (flightIds: readonly string[], base: OutcomeTable, without: OutcomeTable): Dropped => {
  const { n, least } = summary(without);
  let all = 0;
  for (let r = 0; r < n; r += 1) all += isAt(least[r], PAIRED.fliesWhenPlanned);
  const change = differenceOf(["", ""], base, without);
  return {
    flightIds,
    allFly: shareOf(all, n),
    change: change.allFlyWhenPlanned,
    bySortie: change.sorties.map(({ fliesWhenPlanned }) => fliesWhenPlanned),
  };
};
