/** Ports, hulls, budgets and counts as rows of the linear relaxation: sum of takes · flights ≤ most. */
import { keptCrowd } from "./problem.ts";
import type { Candidates } from "./candidates.ts";

export interface LimitRow {
  /** Cells [window · lanes + lane] and what a flight there takes. */
  readonly cells: readonly number[];
  readonly takes: readonly number[];
  readonly most: number;
  /** Window of its last cell. */
  readonly last: number;
}

/** Two instants closer than this, ms, are one. */
const SAME_MS = 1;

/** At each instant no more are in use than there are: flights that still hold what one arriving now would need. */
const resourceRows = (candidates: Candidates): readonly LimitRow[] => {
  const { problem, windows, lanes, free } = candidates;
  const { instants, resources } = problem;
  return resources.flatMap((resource) => {
    const rows: LimitRow[] = [];
    for (let window = 0; window < windows; window += 1) {
      const at = instants[window] ?? 0;
      const cells: number[] = [];
      for (const lane of resource.lanes) {
        const lead = resource.leadMs[lane] ?? 0;
        const hold = resource.holdMs[lane] ?? 0;
        for (let earlier = window; earlier >= 0; earlier -= 1) {
          // In use where this one begins to be: its own lead before the instant.
          if ((instants[earlier] ?? 0) + hold + lead <= at + SAME_MS) break;
          if ((free[earlier * lanes + lane] ?? 0) > 0) cells.push(earlier * lanes + lane);
        }
      }
      const leads = resource.lanes.map((lane) => resource.leadMs[lane] ?? 0);
      const lead = Math.max(0, ...leads);
      // Where leads differ the uses need not meet at one instant, and the row would rule out what is allowed.
      if (leads.some((other) => other !== lead)) return [];
      const most = resource.capacity - keptCrowd(resource, at - lead, at - lead + SAME_MS);
      const possible = cells.reduce((sum, cell) => sum + (free[cell] ?? 0), 0);
      if (possible > most) rows.push({ cells, takes: cells.map(() => 1), most: Math.max(0, most), last: window });
    }
    return rows;
  });
};

const purseRows = ({ problem, windows, lanes, free }: Candidates): readonly LimitRow[] =>
  problem.purses.flatMap(({ kind, most, takes }) => {
    // It hangs on what is left in the tanks at the end, too.
    if (kind === "loss") return [];
    const cells = [...free.keys()].filter((cell) => (free[cell] ?? 0) > 0);
    return [{ cells, takes: cells.map((cell) => takes[cell % lanes] ?? 0), most, last: windows - 1 }];
  });

export const limitRows = (candidates: Candidates): readonly LimitRow[] => [
  ...resourceRows(candidates),
  ...purseRows(candidates),
];
