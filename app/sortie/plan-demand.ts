/** The demand of a planned sortie, wherever it comes from: its class, a statement, or the lander's sheet by a profile. */
import { PlanningError } from "../ground/failure.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import { type DemandLine, demandOf } from "./demand.ts";
import type { Lander } from "../entity/lander.ts";
import type { Mission } from "../entity/profile.ts";
import { refuse } from "./refusal.ts";
import { sortieSheet, type SortieSheet } from "./sheet.ts";

/** The part of a plan that demands are computed from. */
export type DemandPlan = Pick<PlanSnapshot, "craft" | "craftClasses" | "profiles" | "propellants">;

type Propellants = DemandPlan["propellants"];

interface Kept {
  readonly lander: Lander;
  readonly sheets: Map<string, SortieSheet>;
}

/** Sheets already computed, by the identity of the rows that they came from (never changed in place), cargo and densities. */
const kept = new WeakMap<Entity<"profile">, Kept>();

const sheetFor = (
  lander: Lander,
  profile: Entity<"profile">,
  mission: Mission,
  propellants: Propellants,
): SortieSheet => {
  let found = kept.get(profile);
  if (found === undefined || found.lander !== lander) {
    found = { lander, sheets: new Map() };
    kept.set(profile, found);
  }
  const densities = propellants.map(({ id, densityKgPerM3 }) => `${id} ${String(densityKgPerM3)}`).join(" ");
  const key = [mission.cargoDownKg, mission.cargoUpKg, mission.crew, densities].join(" ");
  const sheet = found.sheets.get(key) ?? sortieSheet(lander, profile, mission, propellants);
  found.sheets.set(key, sheet);
  return sheet;
};

const classOf = (plan: DemandPlan, sortie: Entity<"sortie">): Entity<"craftClass"> | undefined => {
  const craft = plan.craft.find(({ id }) => id === sortie.landerId);
  return plan.craftClasses.find(({ id }) => id === craft?.classId);
};

/**
 * The sheet of a sortie whose demand is computed; null for the others. The same rows give the same object, so a drag
 * computes nothing anew. Throws "refused", naming the sortie, where the sheet cannot be computed.
 */
export const sheetOfSortie = (plan: DemandPlan, sortie: Entity<"sortie">): SortieSheet | null => {
  const { demand } = sortie;
  if (demand.kind !== "profile") return null;
  const craftClass = classOf(plan, sortie);
  const profile = plan.profiles.find(({ id }) => id === demand.profileId);
  if (!craftClass?.lander)
    return refuse(`${sortie.name} is computed from a profile, but its lander is not described`, "demand");
  if (!profile)
    return refuse(`${sortie.name} flies a profile that does not exist: ${demand.profileId}`, "demand.profileId");
  if (profile.classId !== craftClass.id)
    return refuse(
      `${sortie.name} flies the profile "${profile.name}", which is for another class of lander`,
      "demand.profileId",
    );
  try {
    return sheetFor(craftClass.lander, profile, demand, plan.propellants);
  } catch (error) {
    if (!(error instanceof PlanningError)) throw error;
    throw new PlanningError(error.code, `${sortie.name}, profile "${profile.name}": ${error.message}`, error.field);
  }
};

/** What a sortie needs aboard at loading and brings home, kg. A table for the forecast: no integration is left to it. */
export const demandLines = (plan: DemandPlan, sortie: Entity<"sortie">): readonly DemandLine[] => {
  const { demand } = sortie;
  switch (demand.kind) {
    case "stated":
      return demand.lines;
    case "class":
      return classOf(plan, sortie)?.propellants ?? [];
    case "profile": {
      const sheet = sheetOfSortie(plan, sortie);
      return sheet ? demandOf(sheet) : [];
    }
    default:
      return refuse("a demand of a kind that is not known", "demand");
  }
};
