/** A sheet, or why there is none. */
import { PlanningError } from "../../../app/ground/failure.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { Mission, Profile } from "../../../app/entity/profile.ts";
import { sortieSheet, type SortieSheet } from "../../../app/sortie/sheet.ts";

export type SheetTry =
  | { readonly ok: true; readonly sheet: SortieSheet }
  | { readonly ok: false; readonly message: string };

export const trySheet = (
  lander: Lander,
  profile: Pick<Profile, "steps" | "reserve">,
  mission: Mission,
  propellants: PlanSnapshot["propellants"],
): SheetTry => {
  try {
    return { ok: true, sheet: sortieSheet(lander, profile, mission, propellants) };
  } catch (error) {
    if (error instanceof PlanningError) return { ok: false, message: error.message };
    throw error;
  }
};
