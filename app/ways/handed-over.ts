/** What one usual flight of a tanker class hands over at the depot, and what it takes on the ground for it. */
import type { CraftClass } from "../entity/craft.ts";
import { levelAfter } from "../storage/level.ts";

/** One propellant of a usual flight, kg. */
export interface HandedOver {
  readonly propellantId: string;
  readonly loadedKg: number;
  /** After boil-off on the way, what cannot be drawn, chilldown of the line and transfer loss; 0: nothing arrives. */
  readonly handedKg: number;
}

/** Line by line of what the class usually loads; the forecast's own order of losses on the way and at handover. */
export const handedOver = ({ propellants, tripDays }: CraftClass): readonly HandedOver[] =>
  propellants
    .filter(({ loadKg }) => loadKg > 0)
    .map(({ propellantId, loadKg, kPerDay, cKgPerDay, residualKg, chilldownKg, lossFraction }) => {
      const arrivedKg = levelAfter(loadKg, kPerDay, cKgPerDay, tripDays);
      const handedKg = Math.max(0, arrivedKg - residualKg - chilldownKg) * (1 - lossFraction);
      return { propellantId, loadedKg: loadKg, handedKg };
    });
