/** How one sortie stands, from the forecast to the words of the report. */
import type { SortieForecast, SortieLineForecast } from "../forecast/outcome.ts";
import type { Entity } from "../entity/entities.ts";
import type { SortieSupply, SupplyLine } from "./answer.ts";

const line = (row: SortieLineForecast): SupplyLine => ({
  propellantId: row.propellantId,
  availableKg: row.availableKg,
  requiredKg: row.requiredKg,
  marginOverReserveKg: row.marginOverReserveKg,
  marginPercent: row.requiredKg > 0 ? (100 * row.marginOverReserveKg) / row.requiredKg : 0,
  status: row.status,
  missingKg: row.status === "short" ? row.requiredKg - row.availableKg : 0,
});

/** The propellant with the least margin relative to what is required. */
const limiting = (lines: readonly SupplyLine[]): string | null => {
  const [first, ...others] = lines;
  if (first === undefined) return null;
  return others.reduce((least, row) => (row.marginPercent < least.marginPercent ? row : least), first).propellantId;
};

export const sortieSupply = (
  sortie: Entity<"sortie">,
  seen: SortieForecast,
  firstPossibleAt: number | null,
): SortieSupply => {
  const lines = seen.lines.map(line);
  return {
    sortieId: sortie.id,
    sortieKey: sortie.key,
    name: sortie.name,
    plannedAt: seen.plannedAt,
    loadedAt: seen.loadedAt,
    status: lines.length === 0 && seen.status !== "short" ? "not stated" : seen.status,
    landerIsAway: seen.landerIsAway,
    outcome: seen.outcome,
    lines,
    limitingPropellantId: limiting(lines),
    firstPossibleAt,
  };
};
