/** Rows of a table as gauge readings. A reading that is there already is left as it is; another at its instant is refused. */
import type { Entity, EntitySet } from "../../entity/entities.ts";
import type { Reading } from "../../ledger/journal.ts";
import { impossibleReading } from "../../ledger/impossible-reading.ts";
import { formatMass } from "../../format/mass.ts";
import { type Lookup, lookupOf, type RowCells } from "./row-cells.ts";

const PERCENT = 100;
/** Above the maximum fill by more than gauges err. */
const FAR_ABOVE = 1.1;
const MAX_ID = 64;

export interface ReadingContext {
  /** Why it cannot be; null: it can. */
  impossible(reading: Pick<Reading, "tankId" | "at" | "massKg">): ReturnType<typeof impossibleReading>;
  readonly depots: Lookup<Entity<"depot">>;
  tanksOf(depotId: string | null): Lookup<Entity<"tank">>;
  readonly tanks: ReadonlyMap<string, Entity<"tank">>;
  /** The reading in force of this tank at this instant; undefined: none. */
  at(tankId: string, at: number): Reading | undefined;
  keep(reading: Reading): void;
  freshId(tankId: string, at: number): string;
}

export const readingContext = (
  entities: EntitySet,
  known: readonly Reading[],
  openings: readonly { readonly tankId: string; readonly at: number }[],
): ReadingContext => {
  const openedAt = new Map(openings.map(({ tankId, at }) => [tankId, at]));
  const inForce = new Map<string, Map<number, Reading>>();
  const keep = (reading: Reading): void => {
    const ofTank = inForce.get(reading.tankId) ?? new Map<number, Reading>();
    inForce.set(reading.tankId, ofTank.set(reading.at, reading));
  };
  for (const each of known) if (!each.isWithdrawn) keep(each);
  const ids = new Set(known.map(({ id }) => id));
  const byDepot = new Map<string | null, Lookup<Entity<"tank">>>();
  return {
    impossible: (reading) => impossibleReading(entities, reading, openedAt.get(reading.tankId) ?? null),
    depots: lookupOf(entities.depot),
    tanks: new Map(entities.tank.map((tank) => [tank.id, tank])),
    tanksOf: (depotId) => {
      const made =
        byDepot.get(depotId) ??
        lookupOf(entities.tank.filter(({ ownerId }) => depotId === null || ownerId === depotId));
      byDepot.set(depotId, made);
      return made;
    },
    at: (tankId, at) => inForce.get(tankId)?.get(at),
    keep: (reading) => {
      keep(reading);
      ids.add(reading.id);
    },
    freshId: (tankId, at) => {
      const stem = `reading-${tankId.slice(0, MAX_ID - 32)}-${at}`;
      if (!ids.has(stem)) return stem;
      // The id of one that was withdrawn is not given again.
      for (let n = 2; ; n += 1) if (!ids.has(`${stem}-${n}`)) return `${stem}-${n}`;
    },
  };
};

/** Whether two say the same, up to the last digit of a figure that went through another program. */
const isSame = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));

export type ReadingRow = { readonly value: unknown; readonly isThere: boolean };

/** null: with faults. */
export const readingRow = (cells: RowCells, context: ReadingContext): ReadingRow | null => {
  const depot = cells.has("depot") ? cells.one("depot", "depot", context.depots) : null;
  const tank = cells.one("tank", "tank", context.tanksOf(depot?.id ?? null));
  const at = cells.instant("at");
  const isShare = !cells.has("mass") && cells.has("share");
  const given = cells.figure(isShare ? "share" : "mass");
  const sigmaKg = cells.figure("sigma");
  if (tank === null || at === null || given === null || sigmaKg === null) return null;
  const massKg = isShare ? (given / PERCENT) * tank.maximumFillKg : given;
  if (massKg > tank.maximumFillKg * FAR_ABOVE)
    cells.fault(
      isShare ? "share" : "mass",
      `${tank.name} holds ${formatMass(tank.maximumFillKg)} at most; ${formatMass(massKg)} is far above.`,
    );
  else {
    const impossible = context.impossible({ tankId: tank.id, at, massKg });
    if (impossible !== null)
      cells.fault(impossible.field === "at" ? "at" : isShare ? "share" : "mass", impossible.reason);
  }
  const note = cells.has("note") ? cells.text("note") : "";
  const before = context.at(tank.id, at);
  if (before !== undefined) {
    if (isSame(before.massKg, massKg) && isSame(before.sigmaKg, sigmaKg)) return { value: before, isThere: true };
    cells.fault(
      "at",
      `There is a reading of ${tank.name} at this instant already: ${formatMass(before.massKg)}. If it is wrong, withdraw it first.`,
    );
    return null;
  }
  return {
    isThere: false,
    value: {
      id: context.freshId(tank.id, at),
      tankId: tank.id,
      at,
      massKg,
      sigmaKg,
      entryId: null,
      isWithdrawn: false,
      note,
    },
  };
};
