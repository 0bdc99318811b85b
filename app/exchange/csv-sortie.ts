/** One CSV row as a sortie of a plan case: a new one, or, by its key, a changed one. */
import type { Entity } from "../ledger/entities.ts";
import { DAY_MS } from "../ledger/quantity.ts";
import type { CellReader } from "./csv-cell.ts";
import type { RowContext } from "./csv-flight.ts";
import { keyFrom } from "./csv-key.ts";

/** Stated where a propellant has a number in the row; else as it was, or as the class says. */
const readDemand = (
  cells: CellReader,
  { columns }: RowContext,
  known: Entity<"sortie"> | undefined,
): Entity<"sortie">["demand"] => {
  const masses = new Map<string, { propellantId: string; loadKg: number; returnKg: number }>();
  for (const { heading, propellantId, ending } of columns) {
    const kg = cells.number(heading, false);
    if (kg === null) continue;
    const line = masses.get(propellantId) ?? { propellantId, loadKg: 0, returnKg: 0 };
    masses.set(propellantId, ending === "load kg" ? { ...line, loadKg: kg } : { ...line, returnKg: kg });
  }
  if (masses.size > 0) return { kind: "stated", lines: [...masses.values()] };
  return known?.demand ?? { kind: "class" };
};

/** null: a fault was found. */
export const readSortie = (cells: CellReader, context: RowContext): unknown => {
  const { plan, planCaseId } = context;
  const name = cells.needed("name");
  const key = cells.text("key") || keyFrom(name);
  const known = plan.sortie.find((row) => row.planCaseId === planCaseId && row.key === key);
  const campaign = cells.named("campaign", "campaign", plan, (row) => row.planCaseId === planCaseId);
  const lander = cells.named("lander", "craft", plan);
  const depot = cells.named("depot", "depot", plan);
  const loadAt = cells.instant("loads", true);
  const returnAt = cells.instant("returns", false);
  const demand = readDemand(cells, context, known);
  if (loadAt === null || cells.faults.length > 0) return null;
  const craftClass = plan.craftClass.find((row) => row.id === lander?.classId);
  return {
    id: known?.id ?? context.newId(),
    planCaseId,
    key,
    campaignId: campaign?.id,
    landerId: lander?.id,
    depotId: depot?.id,
    name,
    loadAt,
    returnAt: returnAt ?? loadAt + Math.round((craftClass?.tripDays ?? 0) * DAY_MS),
    demand,
    status: cells.text("status") || (known?.status ?? "planned"),
    note: cells.text("note") || (known?.note ?? ""),
  };
};
