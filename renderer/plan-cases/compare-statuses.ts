/** The sorties of two plan cases side by side, matched by their keys. */
import type { SortieSupply, SupplyGlance } from "../../app/supply/answer.ts";

export interface StatusPair {
  readonly key: string;
  readonly name: string;
  readonly here: SortieSupply | null;
  readonly there: SortieSupply | null;
}

/** The least margin of a sortie’s propellants, per cent of what is required; null: it has none. */
export const marginOf = (supply: SortieSupply | null): number | null =>
  supply === null || supply.lines.length === 0 ? null : Math.min(...supply.lines.map((line) => line.marginPercent));

export const statusPairs = (here: SupplyGlance, there: SupplyGlance): readonly StatusPair[] => {
  const pairs = new Map<string, StatusPair>();
  for (const supply of here.sorties)
    pairs.set(supply.sortieKey, { key: supply.sortieKey, name: supply.name, here: supply, there: null });
  for (const supply of there.sorties) {
    const known = pairs.get(supply.sortieKey);
    pairs.set(supply.sortieKey, {
      key: supply.sortieKey,
      name: known?.name ?? supply.name,
      here: known?.here ?? null,
      there: supply,
    });
  }
  const at = ({ here: a, there: b }: StatusPair): number => (a ?? b)?.plannedAt ?? 0;
  return [...pairs.values()].sort((a, b) => at(a) - at(b));
};
