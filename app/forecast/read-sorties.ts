/** Reads what a traced run says of sorties. */
import type { SortieForecast, SortieLineForecast } from "./outcome.ts";
import { amounts } from "./read-flights.ts";
import { needAboardKg, needAvailableKg, needDrawnKg, needMarginKg, needRequiredKg, needStatus } from "./read-run.ts";
import { EVENT, RECORD } from "./compiled-plan.ts";
import { OUTCOME } from "./run.ts";
import type { Run } from "./run-state.ts";
import type { Trace } from "./trace.ts";

const statuses = ["supplied", "thin", "short"] as const;

/** Number of a status to its word. */
export const statusWord = (status: number): "supplied" | "thin" | "short" => statuses[status] ?? "short";

const at = (column: Float64Array, index: number): number => column[index] ?? 0;

/** Of each lander, the instants at which records have it at home, in order. */
const recordedHome = ({ plan }: Run): ReadonlyMap<number, readonly number[]> => {
  const found = new Map<number, number[]>();
  plan.eventKind.forEach((kind, event) => {
    const record = plan.eventIndex[event] ?? 0;
    if (kind !== EVENT.record || plan.recordWhat[record] !== RECORD.home) return;
    const lander = plan.recordOf[record] ?? 0;
    found.set(lander, [...(found.get(lander) ?? []), at(plan.eventAt, event)]);
  });
  return found;
};

export const readSorties = (run: Run, trace: Trace): readonly SortieForecast[] => {
  const { plan } = run;
  const drawnBy = Map.groupBy(
    trace.drawn.filter((row) => row.by === "need"),
    (row) => row.index,
  );

  const home = recordedHome(run);

  const readLine = (need: number, isLoaded: boolean, isBack: boolean, isOut: boolean): SortieLineForecast => {
    const drawn = needDrawnKg(run, need);
    const aboard = isLoaded ? needAboardKg(run, need) : 0;
    const chill = drawn > 0 ? Math.min(at(plan.needChillKg, need), drawn) : 0;
    const load = at(plan.needLoadKg, need);
    const loaded = isLoaded ? Math.max(load, aboard) : 0;
    const surplusKg = isLoaded || isOut ? at(run.surplusKg, need) : 0;
    return {
      propellantId: plan.needPropellantIds[need] ?? "",
      availableKg: needAvailableKg(run, need),
      requiredKg: needRequiredKg(run, need),
      marginOverReserveKg: needMarginKg(run, need),
      status: statusWord(needStatus(run, need)),
      aboardKg: aboard,
      drawn: amounts(run, drawnBy.get(need)),
      chilldownKg: chill,
      handoverLossKg: isLoaded ? Math.max(0, aboard + drawn - chill - loaded) : 0,
      loadedKg: loaded,
      surplusKg,
      returnedKg: isBack && (isLoaded || isOut) ? at(plan.needReturnKg, need) + surplusKg : 0,
    };
  };

  return plan.sortieIds.map((sortieId, index) => {
    const isOut = plan.sortieIsOut[index] === 1;
    const loadedAt = run.sortieLoadedAt[index] ?? Number.NaN;
    const isLoaded = !Number.isNaN(loadedAt);
    const plannedAt = at(plan.sortieLoadAt, index);
    const trip = at(plan.sortieReturnAt, index) - plannedAt;
    const calledAt = home.get(plan.sortieLander[index] ?? 0)?.find((each) => each > loadedAt) ?? Infinity;
    const returnAt = isOut ? at(plan.sortieReturnAt, index) : Math.min(loadedAt + trip, calledAt);
    const isBack = returnAt <= plan.horizonAt;
    const outcome = run.sortieOutcome[index];
    const first = plan.sortieLineStart[index] ?? 0;
    const lines: SortieLineForecast[] = [];
    for (let need = first; need < (plan.sortieLineStart[index + 1] ?? first); need += 1)
      lines.push(readLine(need, isLoaded, isBack, isOut));
    return {
      sortieId,
      plannedAt,
      loadedAt: isLoaded ? loadedAt : null,
      returnAt: (isOut || isLoaded) && isBack ? returnAt : null,
      status: statusWord(isOut ? 0 : (run.sortieStatus[index] ?? 0)),
      outcome:
        isOut || outcome === OUTCOME.flies
          ? "flies"
          : outcome === OUTCOME.waitsAndFlies
            ? "waits and flies"
            : "stands down",
      landerIsAway: run.sortieLanderAway[index] === 1,
      isOut,
      lines,
    };
  });
};
