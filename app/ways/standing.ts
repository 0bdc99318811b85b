/** How the sorties of a run stand: the first that is not supplied, and what it lacks. */
import { needStatus } from "../forecast/read-run.ts";
import type { Run } from "../forecast/run-state.ts";
import { STATUS } from "../forecast/run.ts";

/** Index of the earliest sortie still to leave that is not supplied; −1: all are. */
export const firstUnsupplied = (run: Run): number => {
  const { plan, sortieStatus } = run;
  // Compiled sorties stand in order of time.
  for (let sortie = 0; sortie < plan.sortieIds.length; sortie += 1)
    if (plan.sortieIsOut[sortie] === 0 && sortieStatus[sortie] !== STATUS.supplied) return sortie;
  return -1;
};

/** Needs of a sortie that are not supplied, by index. */
export const lackingNeeds = (run: Run, sortie: number): readonly number[] => {
  const { sortieLineStart } = run.plan;
  const lacking: number[] = [];
  for (let need = sortieLineStart[sortie] ?? 0; need < (sortieLineStart[sortie + 1] ?? 0); need += 1)
    if (needStatus(run, need) !== STATUS.supplied) lacking.push(need);
  return lacking;
};
