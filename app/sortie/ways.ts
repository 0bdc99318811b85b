/** Ways to fly one sortie, side by side: what each takes and what it saves. What that means in tanker flights: app/ways. */
import { PlanningError } from "../ground/failure.ts";
import type { Propellant } from "../entity/propellant.ts";
import type { DemandLine } from "./demand.ts";
import { demandOf } from "./demand.ts";
import type { Lander } from "../entity/lander.ts";
import type { Mission } from "../entity/profile.ts";
import { sortieSheet, type SortieSheet } from "./sheet.ts";
import type { FlownProfile } from "./solve-off-plane.ts";

/** One way: a profile, flown by the lander as it is or by a variant of it (other mixture ratio, fewer engines). */
export interface Way {
  readonly name: string;
  readonly lander: Lander;
  readonly profile: FlownProfile;
}

export interface WayResult {
  readonly name: string;
  /** null: it cannot be flown; `refusal` says why. */
  readonly sheet: SortieSheet | null;
  readonly refusal: string | null;
  readonly demand: readonly DemandLine[];
  /** Sum over propellants of what a sortie uses up (load − return), kg. */
  readonly usedKg: number;
  /** Less used than by the first way that can be flown, kg; negative: more. */
  readonly savingKg: number;
}

const fly = (
  way: Way,
  mission: Mission,
  propellants: readonly Pick<Propellant, "id" | "densityKgPerM3">[],
): SortieSheet | string => {
  try {
    return sortieSheet(way.lander, way.profile, mission, propellants);
  } catch (error) {
    if (error instanceof PlanningError && error.code === "refused") return error.message;
    throw error;
  }
};

/** Compares ways with the same cargo and crew. A way that cannot be flown stays in the list with the reason. */
export const compareWays = (
  ways: readonly Way[],
  mission: Mission,
  propellants: readonly Pick<Propellant, "id" | "densityKgPerM3">[],
): WayResult[] => {
  const flown = ways.map((way) => {
    const answer = fly(way, mission, propellants);
    const sheet = typeof answer === "string" ? null : answer;
    const demand = sheet ? demandOf(sheet) : [];
    const usedKg = demand.reduce((sum, line) => sum + line.loadKg - line.returnKg, 0);
    return { name: way.name, sheet, refusal: typeof answer === "string" ? answer : null, demand, usedKg };
  });
  const reference = flown.find(({ sheet }) => sheet !== null)?.usedKg ?? 0;
  return flown.map((way) => ({ ...way, savingKg: way.sheet ? reference - way.usedKg : 0 }));
};
