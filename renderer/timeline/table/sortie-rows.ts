/** Sorties with their supply and lander, for the table. */
import type { Sortie } from "../../../app/entity/sortie.ts";
import type { SortieSupply } from "../../../app/supply/answer.ts";
import type { TimelineModel } from "../model/timeline-model.ts";

export interface SortieRow {
  readonly sortie: Sortie;
  /** undefined: it is not in the forecast (flown, cancelled). */
  readonly supply: SortieSupply | undefined;
  readonly lander: string;
}

export const sortieRows = (model: TimelineModel): readonly SortieRow[] => {
  const supplies = new Map(model.glance.sorties.map((supply) => [supply.sortieId, supply]));
  return model.sorties.map((sortie) => ({
    sortie,
    supply: supplies.get(sortie.id),
    lander: model.plan.craft.find((craft) => craft.id === sortie.landerId)?.name ?? "",
  }));
};
