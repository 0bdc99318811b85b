/** Of the plans with as many flights (at as little cost) as were found, the one that loses least. */
import type { ResupplyAnswer } from "./answer.ts";
import type { Choice } from "./candidates.ts";
import type { SolveLinear } from "./linear.ts";
import { fewestOfLoss } from "./fewest-changes.ts";
import { LOSS_SHARE, type Prepared, prepare, search } from "./search.ts";

const MAX_LABELS = 2_000_000;
const MAX_ROUNDS = 10;

/** At the number (or cost) found, the plan that loses least; masses are rounded to 2^-10 kg, so that sums are exact. */
export const leastLoss = (
  { problem, candidates, relaxation }: Prepared,
  { upper, choice }: { upper: number; choice: Choice },
  solve: SolveLinear,
  shouldStop: () => boolean,
): { choice: Choice; loss: NonNullable<ResupplyAnswer["loss"]> } => {
  const { compiled } = candidates;
  /** Those that sorties draw from: what comes into them and is neither drawn nor left is lost. */
  const pools = new Set(relaxation?.pools);
  const drawn = new Set([...pools].map((pool) => JSON.stringify(compiled.poolKeys[pool])));
  const lanes = problem.lanes.map((row) => {
    // What is drawn at a depot of the plan was counted where it came in.
    if (row.originDepotId !== null) return { ...row, cost: 0 };
    const loads =
      row.planned?.loads.map(({ propellantId, loadedKg }) => ({ propellantId, loadKg: loadedKg })) ??
      row.craftClass.propellants;
    const kg = loads
      .filter(({ propellantId }) => drawn.has(JSON.stringify({ depotId: row.depotId, propellantId })))
      .reduce((sum, { loadKg }) => sum + loadKg, 0);
    return { ...row, cost: Math.round(kg * 1024) / 1024 };
  });
  const takes = Float64Array.from(problem.lanes, ({ cost }) => cost);
  const purse = { kind: "flights" as const, most: upper, takes };
  const prepared = prepare({ ...problem, lanes, purses: [...problem.purses, purse] });
  // Loaded less left at the end, with what was there and what is drawn: lost.
  const wanted = prepared.steps.wantedKg.reduce((sum, kg) => sum + kg, 0);
  const opening = compiled.tankPool.reduce(
    (sum, pool, tank) => (pools.has(pool) ? sum + (compiled.tankOpeningKg[tank] ?? 0) : sum),
    0,
  );
  const kept = compiled.lineFlight.reduce((sum, flight, line) => {
    const isCounted =
      candidates.isCandidate[flight] === 0 &&
      pools.has(compiled.linePool[line] ?? -1) &&
      // What is drawn from one of them was counted there.
      !pools.has(compiled.lineOriginPool[line] ?? -1) &&
      (compiled.flightArriveAt[flight] ?? Infinity) <= compiled.horizonAt;
    return isCounted ? sum + (compiled.lineLoadedKg[line] ?? 0) : sum;
  }, 0);
  const rest = opening + kept - wanted;
  const found = search(prepared, {
    solve,
    endValue: 1,
    restKg: rest,
    known: { choice },
    mostRounds: MAX_ROUNDS,
    mostLabels: MAX_LABELS,
    shouldStop,
  });
  // Least within the tolerance of the proof: what of that is left goes into fewer changes.
  const upperKg = rest + found.upper;
  const slackKg = Math.max(0, Math.max(1, LOSS_SHARE * upperKg) - (found.upper - found.lower));
  const { choice: best, moreKg } = fewestOfLoss(prepared, found.choice ?? choice, slackKg, solve, shouldStop);
  return {
    choice: best,
    loss: {
      lowerKg: rest + found.lower,
      upperKg: upperKg + moreKg,
      isProved: found.isProved && found.choice !== null,
    },
  };
};
