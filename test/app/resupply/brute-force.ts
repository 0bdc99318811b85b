/** Every choice of flights, by the engine alone: what a search is compared with. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { compile } from "../../../app/forecast/compile.ts";
import { MASS, TANK_WIDTH } from "../../../app/forecast/layout.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import { STATUS } from "../../../app/forecast/run.ts";
import type { Run } from "../../../app/forecast/run-state.ts";
import { type Candidates, type Choice, chosenFlights } from "../../../app/resupply/candidates.ts";
import type { Problem, Resource } from "../../../app/resupply/problem.ts";

/** The plan with the kept and the chosen flights alone, as a person would get it. */
const chosenPlan = (candidates: Candidates, choice: Choice): PlanSnapshot => {
  const { plan } = candidates.problem;
  return { ...plan, craft: candidates.craft, flights: [...plan.flights, ...chosenFlights(candidates, choice)] };
};

/** Whether every sortie of a run is held. */
export const isHeld = (problem: Problem, run: Run): boolean => {
  const worst = problem.goal === "supplied" ? STATUS.supplied : STATUS.thin;
  return run.plan.sortieIds.every(
    (_, sortie) => run.plan.sortieIsOut[sortie] === 1 || (run.sortieStatus[sortie] ?? 0) <= worst,
  );
};

/** Whether no more are in use at any instant than there are, counted afresh from all uses. */
const keepsResource = (candidates: Candidates, resource: Resource, choice: Choice): boolean => {
  const { instants } = candidates.problem;
  const uses: (readonly [number, number])[] = [];
  choice.forEach((count, cell) => {
    const lane = cell % candidates.lanes;
    const at = instants[Math.floor(cell / candidates.lanes)] ?? 0;
    const arriveAt = at + (candidates.problem.lanes[lane]?.tripMs ?? 0);
    for (let n = 0; n < count; n += 1) {
      if (resource.lanes.includes(lane))
        uses.push([at - (resource.leadMs[lane] ?? 0), at + (resource.holdMs[lane] ?? 0)]);
      if (resource.arriving.includes(lane)) uses.push([arriveAt, arriveAt + (resource.holdMs[lane] ?? 0)]);
    }
  });
  const all = [...resource.kept, ...uses];
  // What is crowded by kept flights alone is not this choice's doing.
  return all.every(([at]) => {
    const own = uses.filter(([from, until]) => from <= at && until > at + 1).length;
    return own === 0 || all.filter(([from, until]) => from <= at && until > at + 1).length <= resource.capacity;
  });
};

export const keepsLimits = (candidates: Candidates, choice: Choice): boolean =>
  candidates.problem.resources.every((resource) => keepsResource(candidates, resource, choice));

/** The plan with the choice, compiled anew and run: does it hold, also with any one (two) of its flights lost? */
export const holdsExactly = (candidates: Candidates, choice: Choice): boolean => {
  const { problem } = candidates;
  const engine = createEngine(compile(chosenPlan(candidates, choice)));
  const { flightIsLost } = engine.input;
  const flights = [...flightIsLost.keys()];
  const hold = (from: number, left: number): boolean => {
    if (!isHeld(problem, engine.go())) return false;
    if (left === 0) return true;
    return flights.slice(from).every((flight) => {
      flightIsLost[flight] = 1;
      const holds = hold(flight + 1, left - 1);
      flightIsLost[flight] = 0;
      return holds;
    });
  };
  return hold(0, problem.lost);
};

/** What tanks that sorties draw from hold in the end, kg. */
const leftInTanks = (run: Run, pools: ReadonlySet<number>): number =>
  run.plan.tankIds.reduce(
    (sum, _, tank) =>
      pools.has(run.plan.tankPool[tank] ?? -1) ? sum + (run.tanks[TANK_WIDTH * tank + MASS] ?? 0) : sum,
    0,
  );

/**
 * The least over all choices of at most `most` flights, one at an instant, of what is loaded for tanks that
 * sorties draw from less what these hold in the end, kg.
 */
export const bruteForceLoss = (candidates: Candidates, most: number): number => {
  const { problem, windows, lanes, free, compiled } = candidates;
  const pools = new Set(compiled.needPool.filter((_, need) => (compiled.needLoadKg[need] ?? 0) > 0));
  let best = Infinity;
  const choice: Choice = new Int32Array(windows * lanes);
  const visit = (window: number, left: number): void => {
    if (window === windows) {
      const engine = createEngine(compile(chosenPlan(candidates, choice)));
      const run = engine.go();
      if (!isHeld(problem, run) || !keepsLimits(candidates, choice)) return;
      const { plan } = run;
      const loaded = plan.lineFlight.reduce((sum, flight, line) => {
        const isChosen = (plan.flightIds[flight] ?? "").startsWith("resupply-");
        return isChosen && pools.has(plan.linePool[line] ?? -1) ? sum + (plan.lineLoadedKg[line] ?? 0) : sum;
      }, 0);
      best = Math.min(best, loaded - leftInTanks(run, pools));
      return;
    }
    visit(window + 1, left);
    if (left === 0) return;
    for (let cell = window * lanes; cell < (window + 1) * lanes; cell += 1) {
      if ((free[cell] ?? 0) < 1) continue;
      choice[cell] = 1;
      visit(window + 1, left - 1);
      choice[cell] = 0;
    }
  };
  visit(0, most);
  return best;
};

/**
 * The least cost over all choices of at most one flight from a source to a depot at an instant, and of each lane between depots one;
 * Infinity: none holds.
 */
export const bruteForce = (candidates: Candidates, holds: (problem: Problem, run: Run) => boolean = isHeld): number => {
  const { problem, windows, lanes, free, flightOf, isCandidate, compiled } = candidates;
  const engine = createEngine(compiled);
  const { flightIsLost, flightIsOff } = engine.input;
  isCandidate.forEach((is, flight) => {
    if (is === 1) flightIsOff[flight] = 1;
  });
  const choice: Choice = new Int32Array(windows * lanes);
  const standing: number[] = compiled.flightIds.flatMap((_, flight) => (isCandidate[flight] === 1 ? [] : [flight]));
  const hold = (flying: readonly number[], left: number): boolean => {
    if (!holds(problem, engine.go())) return false;
    return (
      left === 0 ||
      flying.every((flight, n) => {
        flightIsLost[flight] = 1;
        const holds = hold(flying.slice(n + 1), left - 1);
        flightIsLost[flight] = 0;
        return holds;
      })
    );
  };
  let best = Infinity;
  const isBetween = problem.lanes.some(({ originDepotId }) => originDepotId !== null);
  /**
   * Whether another flight from a source is chosen for the instant already: to the same depot, or to any where none goes
   * on from one to the other.
   */
  const isTaken = (cell: number): boolean => {
    const own = problem.lanes[cell % lanes];
    if (own?.originDepotId !== null) return false;
    const first = cell - (cell % lanes);
    return problem.lanes.some(
      ({ depotId, originDepotId }, lane) =>
        originDepotId === null && (!isBetween || depotId === own.depotId) && choice[first + lane] === 1,
    );
  };
  const visit = (cell: number, cost: number, flying: readonly number[]): void => {
    if (cost >= best) return;
    if (cell === windows * lanes) {
      if (keepsLimits(candidates, choice) && hold([...standing, ...flying], problem.lost)) best = cost;
      return;
    }
    visit(cell + 1, cost, flying);
    const flight = flightOf[cell * problem.mostAtOnce] ?? -1;
    if ((free[cell] ?? 0) < 1 || flight < 0 || isTaken(cell)) return;
    flightIsOff[flight] = 0;
    choice[cell] = 1;
    visit(cell + 1, cost + (problem.lanes[cell % lanes]?.cost ?? 0), [...flying, flight]);
    choice[cell] = 0;
    flightIsOff[flight] = 1;
  };
  visit(0, 0, []);
  return best;
};
