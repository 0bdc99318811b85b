/** What a sortie used up besides its burns, as far as its profile knows it: lost aboard, taken by crew and power. */
import type { EntitySet } from "../entity/entities.ts";
import type { Sortie } from "../entity/sortie.ts";
import { toGrams } from "../ledger/journal.ts";
import { PlanningError } from "../ground/failure.ts";
import { sheetOfSortie } from "../sortie/plan-demand.ts";

/** Whole grams. */
export interface SortieUse {
  readonly boilOffGrams: number;
  readonly consumedGrams: number;
  /** In what was jettisoned. */
  readonly leftBehindGrams: number;
}

const NOTHING: SortieUse = { boilOffGrams: 0, consumedGrams: 0, leftBehindGrams: 0 };

/** By propellant; empty for a sortie without a profile, or with one that cannot be computed any more. */
export const sortieUses = (
  entities: Pick<EntitySet, "craft" | "craftClass" | "profile" | "propellant">,
  sortie: Sortie,
): ReadonlyMap<string, SortieUse> => {
  const plan = {
    craft: entities.craft,
    craftClasses: entities.craftClass,
    profiles: entities.profile,
    propellants: entities.propellant,
  };
  try {
    const lines = sheetOfSortie(plan, sortie)?.lines ?? [];
    return new Map(
      lines.map(({ propellantId, lostKg, consumedKg, leftBehindKg }) => [
        propellantId,
        {
          boilOffGrams: toGrams(lostKg),
          consumedGrams: toGrams(consumedKg),
          leftBehindGrams: toGrams(leftBehindKg),
        },
      ]),
    );
  } catch (error) {
    // What came home must be recorded all the same; the plan's own checks say what is wrong with the profile.
    if (error instanceof PlanningError) return new Map();
    throw error;
  }
};

/**
 * The use within what is really gone, which is measured: where less is gone than the profile says, people and power are
 * counted first, then what was left behind, then what boiled off. The rest was burned.
 */
export const usedOf = (use: SortieUse = NOTHING, goneGrams: number): SortieUse & { readonly burnedGrams: number } => {
  const consumedGrams = Math.min(use.consumedGrams, goneGrams);
  const leftBehindGrams = Math.min(use.leftBehindGrams, goneGrams - consumedGrams);
  const boilOffGrams = Math.min(use.boilOffGrams, goneGrams - consumedGrams - leftBehindGrams);
  const burnedGrams = goneGrams - consumedGrams - leftBehindGrams - boilOffGrams;
  return { consumedGrams, leftBehindGrams, boilOffGrams, burnedGrams };
};
