/** Rows of a CSV file as gauge readings: tank, at, kg or %, sigma kg, note at will. */
import type { EntitySet } from "../ledger/entities.ts";
import type { CellReader } from "./csv-cells.ts";

const PERCENT = 100;

export const readingRow = (cells: CellReader, entities: EntitySet): unknown => {
  const depot = cells.has("depot") ? cells.one("depot", "depot", entities.depot) : null;
  const tank = cells.one(
    "tank",
    "tank",
    entities.tank.filter(({ ownerId }) => depot === null || ownerId === depot.id),
  );
  const at = cells.instant("at");
  const isShare = !cells.has("kg") && cells.has("%");
  const given = cells.figure(isShare ? "%" : "kg");
  const massKg = given === null || tank === null ? null : isShare ? (given / PERCENT) * tank.maximumFillKg : given;
  if (massKg !== null && tank !== null && massKg > tank.maximumFillKg * 1.1)
    cells.fault(isShare ? "%" : "kg", `${tank.name} holds ${tank.maximumFillKg} kg at most; this is far above.`);
  return {
    id: `reading-${tank?.id ?? ""}-${at ?? 0}`.slice(0, 64),
    tankId: tank?.id,
    at,
    massKg,
    sigmaKg: cells.figure("sigma kg"),
    entryId: null,
    isWithdrawn: false,
    note: cells.text("note"),
  };
};
