/**
 * The whole label and its step: the levels as planned, those after the worst loss of one flight (and of two), and what
 * is waited for.
 *
 * After the worst loss means part by part the least over all losses so far. Where each propellant of a depot lies in one
 * tank and no handover crosses an instant, parts do not touch each other and this is exact; elsewhere it asks for more
 * than is needed, so that plans still hold but nothing is proved by it (`isExact`).
 */
import type { Candidates } from "./candidates.ts";
import type { Move } from "./moves.ts";
import type { Steps } from "./steps.ts";
import { waitingParts } from "./waiting-parts.ts";

export interface LabelStep {
  readonly size: Int32Array;
  readonly mostSize: number;
  readonly scale: readonly Float64Array[];
  readonly start: Float64Array | null;
  readonly isExact: boolean;
  /** Where the levels after the worst loss of one flight begin; −1: flights are not lost. */
  lostFrom(boundary: number): number;
  /** Where what is spent of each purse begins, as minus what is spent. */
  spentFrom(boundary: number): number;
  step(window: number, label: Float64Array, from: number, move: Move, next: Float64Array, to: number): boolean;
}

/** More resource parts than this, and a proof runs without them: the rows of the relaxation still count. */
export const MAX_PROOF_PARTS = 6;

const isExact = ({ compiled, problem }: Candidates, { form }: Steps): boolean =>
  problem.lost === 0 ||
  (compiled.needPool.every((pool) => (compiled.poolSoleTank[pool] ?? -1) >= 0) &&
    form.restLines.every((lines) => lines.length === 0) &&
    form.wayLines.every((lines) => lines.length === 0) &&
    compiled.lineOriginPool.every((pool) => pool < 0));

/** Every way to take at most `most` of a list, at least one: those left out. */
const losses = (list: readonly number[], most: number): readonly (readonly number[])[] => {
  const ways = list.map((item) => [item]);
  if (most < 2) return ways;
  return [...ways, ...list.flatMap((item, n) => list.slice(n + 1).map((other) => [item, other]))];
};

const NOTHING_LOST: readonly number[] = [];

/** A flight from another depot that arrives at an instant: its lane, and its parts of a label there. */
interface Arriving {
  readonly lane: number;
  readonly parts: readonly number[];
}

/** By window. */
const arrivingAt = ({ compiled, problem, list, flightOf, lanes }: Candidates, { form }: Steps) => {
  const laneOf = new Map(
    list.map(({ window, lane, copy }) => [flightOf[(window * lanes + lane) * problem.mostAtOnce + copy] ?? -1, lane]),
  );
  return problem.instants.map((at, window): readonly Arriving[] => {
    const lines = form.wayLines[window] ?? [];
    const first = (form.size[window] ?? 0) - lines.length;
    const here = lines.flatMap((line, n) => {
      const flight = compiled.lineFlight[line] ?? 0;
      const lane = laneOf.get(flight);
      return lane === undefined || compiled.flightArriveAt[flight] !== at ? [] : [{ flight, lane, part: first + n }];
    });
    return [...Map.groupBy(here, ({ flight }) => flight).values()].map((rows) => ({
      lane: rows[0]?.lane ?? 0,
      parts: rows.map(({ part }) => part),
    }));
  });
};

/** Whether the problem has flights between depots to choose from. */
export const hasTransfers = ({ problem }: Candidates): boolean =>
  problem.lanes.some(({ originDepotId }) => originDepotId !== null);

/**
 * `withResources` false: a relaxation without ports that are taken and hulls that are away, for proofs. `isForProof`:
 * labels may be joined, so that who is under way is not known, and ports that flights from other depots take are not
 * counted; and as a depot that holds little more than a chilldown may be left with less than one that holds just less,
 * for a load of next to nothing, the chilldown is given back.
 */
export const makeLabelStep = (
  candidates: Candidates,
  steps: Steps,
  withResources: boolean,
  isForProof: boolean,
): LabelStep => {
  const { problem, compiled } = candidates;
  const { form, keptIn } = steps;
  const blocks = problem.lost + 1;
  const waiting = waitingParts(withResources ? problem : { ...problem, resources: [] });
  const size = form.size.map((length) => length * blocks + (waiting?.size ?? 0));
  const scale = form.scale.map((row) =>
    Float64Array.from([...Array.from({ length: blocks }, () => [...row]).flat(), ...(waiting?.scale ?? [])]),
  );
  const other = new Float64Array(form.mostSize);
  const between = hasTransfers(candidates);
  const arriving = between && !isForProof ? arrivingAt(candidates, steps) : null;
  const linesOf = (flight: number): readonly number[] =>
    Array.from(
      { length: (compiled.flightLineStart[flight + 1] ?? 0) - (compiled.flightLineStart[flight] ?? 0) },
      (_, n) => (compiled.flightLineStart[flight] ?? 0) + n,
    ).filter((line) => (compiled.lineOriginPool[line] ?? -1) >= 0);

  /** False: a flight from another depot found nothing there. */
  const afterDepartures = (window: number, move: Move, next: Float64Array, to: number): boolean => {
    const way = form.wayLines[window + 1] as readonly number[];
    const first = to + (form.size[window + 1] as number) - way.length;
    for (const flight of move.flights) {
      const lines = linesOf(flight);
      if (lines.length === 0) continue;
      if (!lines.some((line) => (next[first + way.indexOf(line)] as number) > 0)) return false;
      if (!isForProof) continue;
      for (const line of lines)
        form.tanks.forEach((tank, part) => {
          if (compiled.tankPool[tank] === compiled.lineOriginPool[line])
            next[to + part] = (next[to + part] as number) + (compiled.lineChillKg[line] as number);
        });
    }
    return true;
  };

  const startLabel = (): Float64Array | null => {
    const { start } = steps;
    if (start === null) return null;
    const label = new Float64Array(size[0] ?? 0);
    for (let block = 0; block < blocks; block += 1) label.set(start, block * start.length);
    for (const lost of blocks > 1 ? losses(steps.keptBefore, problem.lost) : []) {
      const without = steps.startWithout(lost);
      if (without === null) return null;
      without.forEach((massKg, part) => {
        for (let block = lost.length; block < blocks; block += 1) {
          const index = block * start.length + part;
          label[index] = Math.min(label[index] ?? 0, massKg);
        }
      });
    }
    return label;
  };

  /** Lowers the block at `to` by what the losses of this window leave of the block so many before it. */
  const lose = (
    window: number,
    label: Float64Array,
    from: number,
    move: Move,
    most: number,
    next: Float64Array,
    to: number,
  ): boolean => {
    const kept = keptIn[window] as readonly number[];
    const before = form.size[window] as number;
    const after = form.size[window + 1] as number;
    for (const lost of losses([...move.flights, ...kept], most)) {
      if (!steps.step(window, label, from - lost.length * before, move.flights, other, 0, lost)) return false;
      for (let part = 0; part < after; part += 1)
        if ((other[part] as number) < (next[to + part] as number)) next[to + part] = other[part] as number;
    }
    return true;
  };

  return {
    size,
    mostSize: Math.max(...size),
    scale,
    start: startLabel(),
    isExact: isExact(candidates, steps),
    lostFrom: (boundary) => (blocks > 1 ? (form.size[boundary] as number) : -1),
    spentFrom: (boundary) => (size[boundary] as number) - problem.purses.length,
    step: (window, label, from, move, next, to) => {
      const before = form.size[window] as number;
      const after = form.size[window + 1] as number;
      if (waiting !== null) {
        const here = arriving?.[window]?.filter(({ parts }) => parts.some((part) => (label[from + part] ?? 0) > 0));
        const arrived = here?.map(({ lane }) => lane) ?? NOTHING_LOST;
        if (!waiting.step(window, label, from + before * blocks, move, next, to + after * blocks, arrived))
          return false;
      }
      for (let block = 0; block < blocks; block += 1) {
        const own = from + block * before;
        const target = to + block * after;
        if (!steps.step(window, label, own, move.flights, next, target, NOTHING_LOST)) return false;
        if (block > 0 && !lose(window, label, own, move, block, next, target)) return false;
        if (between && block === 0 && !afterDepartures(window, move, next, target)) return false;
      }
      return true;
    },
  };
};

/** Parts of ports and hulls. */
export const resourceSize = ({ problem }: Candidates): number => waitingParts({ ...problem, purses: [] })?.size ?? 0;
