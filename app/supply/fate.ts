/** What becomes of a sortie, as one number that rises as it gets worse: its status, and whether it flies after all. */
import { OUTCOME, STATUS } from "../forecast/run.ts";
import type { Run } from "../forecast/run-state.ts";

/** Flies when planned with the reserve kept, or using it; waits and flies; does not fly. */
export const FATE = { keepsReserve: 0, usesReserve: 1, waitsAndFlies: 2, doesNotFly: 3 } as const;

const fateOf = (run: Run, sortie: number): number => {
  const status = run.sortieStatus[sortie] as number;
  if (status !== STATUS.short) return status === STATUS.thin ? FATE.usesReserve : FATE.keepsReserve;
  return run.sortieOutcome[sortie] === OUTCOME.waitsAndFlies ? FATE.waitsAndFlies : FATE.doesNotFly;
};

/** The fate of every sortie of a run, by its number in the compiled plan. */
export const fatesOf = (run: Run): Uint8Array => {
  const fates = new Uint8Array(run.plan.sortieIds.length);
  for (let sortie = 0; sortie < fates.length; sortie += 1) fates[sortie] = fateOf(run, sortie);
  return fates;
};
