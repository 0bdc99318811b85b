/**
 * The linear relaxation of a problem: for each window and pool a map next ≤ q·(level + arrivals) − r with level between
 * need and top. Exact plans obey every inequality (test/property), so what it rules out is ruled out.
 */
import { levelAfter } from "../storage/level.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Candidates } from "./candidates.ts";
import { type Happening, type PoolCourse, levelBefore, poolCourse } from "./pool-course.ts";
import { JUST_MS, type LabelForm, type Steps } from "./steps.ts";

/** Rounding is given away, kg. */
const ROUNDING_KG = 1e-6;

/** At some instant the tanks hold so much at most, seen from a boundary, and what these parts still bring comes on top. */
interface Look {
  readonly mostKg: number;
  readonly parts: readonly number[];
}

/** A flight from another depot that may be under way at a boundary: its part of a label, and where and when it counts. */
interface WayPart {
  readonly part: number;
  /** The cell [window · pools + pool] in which it arrives. */
  readonly cell: number;
  /** What one kg that it can deliver counts there. */
  readonly worth: number;
}

export interface Relaxation {
  readonly windows: number;
  readonly lanes: number;
  /** Pools with needs, as compiled. */
  readonly pools: readonly number[];
  /** By window and pool: the map, the least level and the most after the arrivals of the window's instant. */
  readonly q: Float64Array;
  readonly r: Float64Array;
  readonly need: Float64Array;
  readonly top: Float64Array;
  /** What a flight brings. [(window · lanes + lane) · pools + pool] */
  readonly brings: Float64Array;
  /** What the start label is worth. */
  readonly start: Float64Array;
  /** Most flights at an instant, by window and depot; the lanes of each depot. */
  readonly groups: readonly (readonly number[])[];
  readonly groupMost: Int32Array;
  /** By what a part of a label counts in its pool: tanks 1, what is still to flow as if it boiled off only from its end. */
  readonly weight: readonly Float64Array[];
  readonly looks: readonly (readonly (readonly Look[])[])[];
  /** By boundary. */
  readonly ways: readonly (readonly WayPart[])[];
  /** Cells [window · lanes + lane] of flights from another depot, by the window in which they arrive. */
  readonly laterArrivals: readonly (readonly number[])[];
  readonly form: LabelForm;
  /** A need above what full tanks can have: no number of flights helps. */
  readonly impossible: {
    readonly sortie: number;
    readonly pool: number;
    readonly needKg: number;
    readonly topKg: number;
  } | null;
}

/** What a pool's part of a label is worth at most, kg. `pool`: its place in `pools`. */
export const worthOf = (
  relaxation: Relaxation,
  boundary: number,
  pool: number,
  label: Float64Array,
  from: number,
): number => {
  const weight = relaxation.weight[boundary] as Float64Array;
  const poolOf = relaxation.form.poolOf[boundary] as Int32Array;
  const wanted = relaxation.pools[pool];
  let worth = 0;
  for (let part = 0; part < weight.length; part += 1)
    if (poolOf[part] === wanted) worth += (weight[part] as number) * (label[from + part] as number);
  const looks = relaxation.looks[boundary]?.[pool];
  if (looks === undefined) return worth;
  for (let n = 0; n < looks.length; n += 1) {
    const look = looks[n] as Look;
    let most = look.mostKg;
    for (let i = 0; i < look.parts.length; i += 1) {
      const part = look.parts[i] as number;
      most += (weight[part] as number) * (label[from + part] as number);
    }
    if (most < worth) worth = most;
  }
  return worth;
};

/** A stretch of constant rate, and what happens at its end. */
interface Stretch {
  readonly k: number;
  readonly c: number;
  readonly days: number;
  readonly ends: Happening | null;
}

const stretchesOf = (course: PoolCourse, fromAt: number, untilAt: number): readonly Stretch[] => {
  let { k, c } = course.rateAt(fromAt);
  let at = fromAt;
  const stretches: Stretch[] = [];
  for (const happening of course.happenings) {
    if (happening.at <= fromAt || happening.at > untilAt) continue;
    stretches.push({ k, c, days: (happening.at - at) / DAY_MS, ends: happening });
    at = happening.at;
    if (happening.kind === "rate") ({ k, c } = happening);
  }
  stretches.push({ k, c, days: (untilAt - at) / DAY_MS, ends: null });
  return stretches;
};

/** The level that the window asks for at its start, and the sortie that asks for most. */
const needOf = (stretches: readonly Stretch[]): { needKg: number; sortie: number } => {
  let needKg = 0;
  let sortie = -1;
  for (const { k, c, days, ends: then } of stretches.toReversed()) {
    if (then?.kind === "draw") {
      const after = needKg > 0 ? needKg + then.massKg : 0;
      if (then.neededKg >= after) ({ sortie } = then);
      needKg = Math.max(then.neededKg, after);
    } else if (then?.kind === "in") needKg = Math.max(0, needKg - then.massKg);
    needKg = levelBefore(needKg, k, c, days);
  }
  return { needKg, sortie };
};

/** The level at the window's end from one at its start. */
const endOf = (stretches: readonly Stretch[], startKg: number): number => {
  let level = startKg;
  for (const { k, c, days, ends: then } of stretches) {
    level = levelAfter(level, k, c, days);
    if (then?.kind === "draw") level = Math.max(0, level - then.massKg);
    else if (then?.kind === "in") level += then.massKg;
  }
  return level;
};

/** Lanes by depot, each lane from another depot by itself, and how many flights each group has at an instant. */
const groupsOf = (candidates: Candidates) => {
  const { problem, windows, lanes, free } = candidates;
  const direct = problem.lanes.filter(({ originDepotId }) => originDepotId === null);
  const depots: (string | null)[] = [...new Set(direct.map(({ depotId }) => depotId))];
  const groups = depots.map((depotId) =>
    problem.lanes.flatMap((lane, index) => (lane.depotId === depotId && lane.originDepotId === null ? [index] : [])),
  );
  problem.lanes.forEach(({ originDepotId }, index) => {
    if (originDepotId === null) return;
    groups.push([index]);
    depots.push(null);
  });
  const groupMost = new Int32Array(windows * groups.length);
  for (let window = 0; window < windows; window += 1)
    groups.forEach((group, index) => {
      let planned = 0;
      let ofClass = 0;
      for (const lane of group) {
        const room = free[window * lanes + lane] ?? 0;
        if (problem.lanes[lane]?.planned === null) ofClass = Math.max(ofClass, room);
        else planned += room;
      }
      const ports = problem.resources.find(({ kind, ownerId }) => kind === "ports" && ownerId === depots[index]);
      groupMost[window * groups.length + index] = Math.min(planned + ofClass, ports?.capacity ?? Infinity);
    });
  return { groups, groupMost };
};

export const makeRelaxation = (candidates: Candidates, steps: Steps): Relaxation => {
  const { compiled: plan, windows, lanes, problem } = candidates;
  const { form } = steps;
  const { instants, mostAtOnce } = problem;
  // With flights between depots, what they draw from counts too.
  const drawnFrom = [...plan.lineFlight.keys()].flatMap((line) =>
    candidates.isCandidate[plan.lineFlight[line] ?? 0] === 1 ? (plan.lineOriginPool[line] ?? -1) : -1,
  );
  const needed = plan.needPool.filter((_, need) => (steps.wantedKg[need] ?? 0) > 0);
  const pools = [...new Set([...needed, ...drawnFrom.filter((pool) => pool >= 0)])].toSorted((a, b) => a - b);
  const count = pools.length;
  const q = new Float64Array(windows * count);
  const r = new Float64Array(windows * count);
  const need = new Float64Array(windows * count);
  const top = new Float64Array(windows * count);
  const brings = new Float64Array(windows * lanes * count);
  const weight = Array.from({ length: windows + 1 }, (_, boundary) => new Float64Array(form.size[boundary] ?? 0));
  const looks: Look[][][] = Array.from({ length: windows + 1 }, () => []);
  const edgeOf = (boundary: number): number =>
    boundary < windows ? (instants[boundary] ?? 0) - JUST_MS : plan.horizonAt;
  const { groups, groupMost } = groupsOf(candidates);
  const courses = pools.map((pool) => poolCourse(candidates, steps.wantedKg, pool));
  let impossible: Relaxation["impossible"] = null;

  pools.forEach((pool, index) => {
    const course = courses[index];
    if (course === undefined) return;
    const groupPlace = groups.findIndex(
      (group) => problem.lanes[group[0] ?? -1]?.depotId === plan.poolKeys[pool]?.depotId,
    );
    for (let boundary = 0; boundary <= windows; boundary += 1)
      (form.poolOf[boundary] ?? []).forEach((of, part) => {
        if (of !== pool) return;
        const line = form.restLines[boundary]?.[part - form.tanks.length] ?? -1;
        const endAt = line < 0 ? 0 : course.endOf(line);
        const row = weight[boundary];
        if (row !== undefined)
          row[part] = part < form.tanks.length ? 1 : Math.exp(course.decayOver(edgeOf(boundary), endAt));
      });
    for (let window = 0; window < windows; window += 1)
      for (let lane = 0; lane < lanes; lane += 1) {
        const flight = candidates.flightOf[(window * lanes + lane) * mostAtOnce] ?? -1;
        if (flight < 0) continue;
        let massKg = 0;
        for (let line = plan.flightLineStart[flight] ?? 0; line < (plan.flightLineStart[flight + 1] ?? 0); line += 1)
          if (plan.linePool[line] === pool) massKg += course.mostOf(line);
        brings[(window * lanes + lane) * count + index] = massKg;
      }
    const draws = course.happenings.filter(({ kind }) => kind === "draw");
    for (let window = 0; window < windows; window += 1) {
      const fromAt = edgeOf(window);
      const arriveAt = instants[window] ?? 0;
      const running = course.handovers.filter((row) => row.untilAt > fromAt && row.fromAt <= arriveAt);
      // At any instant before the next draw the tanks hold so much at most, and what flows after it comes on top.
      const instantsToLook = [fromAt, ...new Set(running.map(({ untilAt }) => untilAt))].filter(
        (at) =>
          at === fromAt ||
          (!draws.some((draw) => draw.at >= fromAt && draw.at < at) &&
            !course.leavesAt.some((leaves) => leaves >= fromAt && leaves < at)),
      );
      const seen = instantsToLook.map((at) => ({
        at,
        mostKg: course.levelBefore(course.mostHeldAt(at), fromAt, at) + ROUNDING_KG,
      }));
      const flowsAfter = (at: number): number => {
        let sum = 0;
        const byFlightAt = new Map<number, number>();
        for (const row of running) {
          if (row.untilAt <= Math.max(at, fromAt)) continue;
          if (!row.isCandidate || row.isFromDepot) sum += row.massKg;
          else byFlightAt.set(row.fromAt, Math.max(byFlightAt.get(row.fromAt) ?? 0, row.massKg));
        }
        for (const [instant, massKg] of byFlightAt) {
          const begun = instants.indexOf(instant);
          sum += massKg * (groupMost[begun * groups.length + groupPlace] ?? 0);
        }
        return sum;
      };
      const cell = window * count + index;
      top[cell] = Math.min(...seen.map(({ at, mostKg }) => mostKg + flowsAfter(at)));
      const rest = form.restLines[window] ?? [];
      looks[window]?.push(
        seen.map(({ at, mostKg }) => ({
          mostKg,
          parts: rest.flatMap((line, n) =>
            plan.linePool[line] === pool && course.endOf(line) > at ? [form.tanks.length + n] : [],
          ),
        })),
      );
      const stretches = stretchesOf(course, fromAt, edgeOf(window + 1));
      const { needKg, sortie } = needOf(stretches);
      need[cell] = Math.max(0, needKg - ROUNDING_KG);
      if (needKg > (top[cell] ?? 0) && impossible === null)
        impossible = { sortie, pool, needKg, topKg: top[cell] ?? 0 };
      // The exact map is convex: its chord over [need, top] lies above it.
      const low = need[cell] ?? 0;
      const high = Math.max(top[cell] ?? 0, low + 1);
      const slope = (endOf(stretches, high) - endOf(stretches, low)) / (high - low);
      q[cell] = slope;
      r[cell] = slope * low - endOf(stretches, low) - ROUNDING_KG;
    }
  });
  const laterArrivals: number[][] = Array.from({ length: windows }, () => []);
  candidates.arrivesIn.forEach((window, cell) => {
    if (window > Math.floor(cell / lanes)) laterArrivals[window]?.push(cell);
  });
  const ways = form.wayLines.map((lines, boundary) =>
    lines.flatMap((line, n): readonly WayPart[] => {
      const flight = plan.lineFlight[line] ?? 0;
      const pool = pools.indexOf(plan.linePool[line] ?? -1);
      const window = instants.indexOf(plan.flightArriveAt[flight] ?? 0);
      if (candidates.isCandidate[flight] !== 1 || pool < 0 || window < 0) return [];
      const course = courses[pool];
      if (course === undefined) return [];
      const part = (form.size[boundary] ?? 0) - lines.length + n;
      const worth = Math.exp(course.decayOver(plan.flightArriveAt[flight] ?? 0, course.endOf(line)));
      return [{ part, cell: window * count + pool, worth }];
    }),
  );
  const relaxation: Relaxation = {
    windows,
    lanes,
    pools,
    q,
    r,
    need,
    top,
    brings,
    start: new Float64Array(count),
    groups,
    groupMost,
    weight,
    looks,
    ways,
    laterArrivals,
    form,
    impossible,
  };
  // Weighted, without the looks: a start that overstates is still a start of a relaxation.
  const { start } = steps;
  if (start !== null)
    pools.forEach((pool, index) => {
      start.forEach((massKg, part) => {
        if (form.poolOf[0]?.[part] === pool)
          relaxation.start[index] = (relaxation.start[index] ?? 0) + massKg * (weight[0]?.[part] ?? 0);
      });
    });
  return relaxation;
};
