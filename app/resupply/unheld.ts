/** Which sorties no flight within the limits can hold, from a run in which every candidate flies. */
import { createEngine } from "../forecast/propagate.ts";
import { needRequiredKg } from "../forecast/read-run.ts";
import type { Unheld } from "./answer.ts";
import type { Candidates } from "./candidates.ts";
import { isHeld, lacking } from "./proposal.ts";

/**
 * Every candidate flies, more than ports and hulls would let: what is short even then is short whatever is chosen, by
 * that much at least. Sorties found so are left out, one after the other, for what they would draw others may have.
 */
export const unheldWithAll = (candidates: Candidates): readonly Unheld[] => {
  const { goal } = candidates.problem;
  const engine = createEngine(candidates.compiled);
  const { plan } = engine.run;
  const found: Unheld[] = [];
  for (let tries = 0; tries <= plan.sortieIds.length; tries += 1) {
    const run = engine.go();
    const sortie = plan.sortieIds.findIndex(
      (_, index) => engine.input.sortieIsOff[index] === 0 && !isHeld(run, index, goal),
    );
    if (sortie < 0) return found;
    const sortieId = plan.sortieIds[sortie] ?? "";
    const lack = lacking(run, sortie, goal);
    if (run.sortieLanderAway[sortie] === 1 || lack === null)
      found.push({ sortieId, propellantId: null, missingKg: 0, why: "lander away" });
    else {
      const pool = plan.needPool[lack.need] ?? -1;
      const tanks = [...plan.poolTanks.subarray(plan.poolStart[pool], plan.poolStart[pool + 1])];
      const fullKg = tanks.reduce(
        (sum, tank) => sum + (plan.tankMaximumKg[tank] ?? 0) - (plan.tankHeelKg[tank] ?? 0),
        0,
      );
      const reserveKg = goal === "supplied" ? (plan.poolReserveKg[pool] ?? 0) : 0;
      const neededKg = needRequiredKg(run, lack.need) + reserveKg;
      const row = { sortieId, propellantId: lack.propellantId, missingKg: lack.missingKg };
      found.push(neededKg > fullKg ? { ...row, why: "maximum fill", fullKg, neededKg } : { ...row, why: "flights" });
    }
    engine.input.sortieIsOff[sortie] = 1;
  }
  return found;
};
