/** One CSV row as a gauge reading. It is kept as measured; taking it into the books is a step of its own. */
import type { EntitySet } from "../ledger/entities.ts";
import type { CellReader } from "./csv-cell.ts";

/** null: a fault was found. */
export const readReading = (cells: CellReader, plan: EntitySet, newId: () => string): unknown => {
  const tank = cells.named("tank", "tank", plan);
  const at = cells.instant("at", true);
  const massKg = cells.number("mass kg", true);
  const sigmaKg = cells.number("sigma kg", true);
  if (cells.faults.length > 0) return null;
  return {
    id: newId(),
    tankId: tank?.id,
    at,
    massKg,
    sigmaKg,
    entryId: null,
    isWithdrawn: false,
    note: cells.text("note"),
  };
};
