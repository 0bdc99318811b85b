/**
 * Ports taken, hulls away and purses opened as further parts of a label: minus the days still to wait, minus what is
 * spent, so that more is better as with levels, and dropping and joining labels stays valid.
 */
import { DAY_MS } from "../ground/quantity.ts";
import type { Move } from "./moves.ts";
import { type Problem, type Resource, keptCrowd } from "./problem.ts";

export interface WaitingParts {
  readonly size: number;
  readonly scale: readonly number[];
  /**
   * Writes the parts at the next instant; false: the move asks for more than there is. `arrived`: lanes of flights from
   * other depots that arrive at this one.
   */
  step(
    window: number,
    label: Float64Array,
    from: number,
    move: Move,
    next: Float64Array,
    to: number,
    arrived: readonly number[],
  ): boolean;
}

/** Days that do not count. */
const NO_DAYS = 1e-9;

/** One resource at one instant: kept uses that begin while a use of some lane would still run. */
interface KeptBegin {
  readonly days: number;
  readonly others: number;
}

const resourceParts = (problem: Problem, resource: Resource): WaitingParts | null => {
  const { instants } = problem;
  const least = instants.slice(1).reduce((gap, at, n) => Math.min(gap, at - (instants[n] ?? 0)), Infinity) / DAY_MS;
  const leadOf = (lane: number): number => (resource.leadMs[lane] ?? 0) / DAY_MS;
  const holdOf = (lane: number): number => (resource.holdMs[lane] ?? 0) / DAY_MS;
  const users = [...resource.lanes, ...resource.arriving];
  const longest = Math.max(0, ...users.map((lane) => leadOf(lane) + holdOf(lane)));
  // Uses of different instants never meet: what each instant has room for is counted beforehand, but for what comes
  // from another depot.
  if (longest <= least && resource.arriving.length === 0) return null;
  const size = Math.min(resource.capacity, Math.ceil(longest / least) * problem.mostAtOnce + problem.lanes.length);
  const leads = [...new Set(users.map(leadOf))];
  const keptAt = instants.map((at) =>
    leads.map((lead): { now: number; later: readonly KeptBegin[] } => {
      const from = at - lead * DAY_MS;
      const until = at + longest * DAY_MS;
      const later = resource.kept.filter(([begin]) => begin > from && begin < until);
      return {
        now: keptCrowd(resource, from, from + 1),
        later: later.map(([begin]) => ({
          days: (begin - at) / DAY_MS,
          others: keptCrowd(resource, begin, begin + 1),
        })),
      };
    }),
  );
  const waits = new Float64Array(size);
  /** Uses that still run so many days after the instant, were the lead nothing. */
  const running = (days: number): number => {
    let count = 0;
    for (let n = 0; n < size; n += 1) if ((waits[n] as number) > days + NO_DAYS) count += 1;
    return count;
  };
  const take = (window: number, lane: number): boolean => {
    const lead = leadOf(lane);
    const hold = holdOf(lane);
    if (lead + hold <= 0) return true;
    const kept = keptAt[window]?.[leads.indexOf(lead)];
    if (kept === undefined || running(0) + kept.now + 1 > resource.capacity) return false;
    for (const { days, others } of kept.later)
      if (days < hold && running(days + lead) + others + 1 > resource.capacity) return false;
    let best = 0;
    for (let n = 1; n < size; n += 1) if ((waits[n] as number) < (waits[best] as number)) best = n;
    if (size === 0 || (waits[best] as number) > NO_DAYS) return false;
    waits[best] = lead + hold;
    return true;
  };
  return {
    size,
    scale: Array.from({ length: size }, () => Math.max(1, longest)),
    step: (window, label, from, move, next, to, arrived) => {
      for (let n = 0; n < size; n += 1) waits[n] = Math.max(0, -(label[from + n] as number));
      for (const lane of arrived) if (resource.arriving.includes(lane) && !take(window, lane)) return false;
      for (const lane of move.lanes) if (resource.lanes.includes(lane) && !take(window, lane)) return false;
      waits.sort();
      const gap = ((instants[window + 1] ?? instants[window] ?? 0) - (instants[window] ?? 0)) / DAY_MS;
      for (let n = 0; n < size; n += 1) next[to + n] = -Math.max(0, (waits[n] as number) - gap);
      return true;
    },
  };
};

/** Resources whose uses may meet, and purses; null: there are none. */
export const waitingParts = (problem: Problem): WaitingParts | null => {
  const kinds = problem.resources.flatMap((resource) => resourceParts(problem, resource) ?? []);
  const { purses } = problem;
  const ofResources = kinds.reduce((sum, { size }) => sum + size, 0);
  const size = ofResources + purses.length;
  if (size === 0) return null;
  return {
    size,
    scale: [...kinds.flatMap(({ scale }) => scale), ...purses.map(({ most }) => Math.max(1, Math.abs(most)))],
    step: (window, label, from, move, next, to, arrived) => {
      let part = 0;
      for (const kind of kinds) {
        if (!kind.step(window, label, from + part, move, next, to + part, arrived)) return false;
        part += kind.size;
      }
      for (let n = 0; n < purses.length; n += 1, part += 1) {
        let spent = -(label[from + part] as number);
        for (const lane of move.lanes) spent += (purses[n]?.takes[lane] as number) ?? 0;
        // What is left at the end comes off a loss: only then is it known.
        if (purses[n]?.kind !== "loss" && spent > (purses[n]?.most as number) + 1e-9) return false;
        next[to + part] = -spent;
      }
      return true;
    },
  };
};
