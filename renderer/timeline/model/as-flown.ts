/** Where a sortie stands in time by the forecast: one that waits loads later than planned, and is away as long. */
import type { Sortie } from "../../../app/entity/sortie.ts";
import type { SortieSupply } from "../../../app/supply/answer.ts";

/** The sortie with the dates of the forecast; the same object where they are as planned. */
export const asFlown = (sortie: Sortie, supply: SortieSupply | undefined): Sortie => {
  if (supply?.outcome !== "waits and flies" || supply.loadedAt === null) return sortie;
  const { loadedAt } = supply;
  return { ...sortie, loadAt: loadedAt, returnAt: loadedAt + sortie.returnAt - sortie.loadAt };
};
