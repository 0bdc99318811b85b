/** What rows of a plan are read against: the plan case as it is, by key and by name. */
import type { Entity, EntitySet } from "../../entity/entities.ts";
import { isNear } from "./near-names.ts";
import type { RowCells } from "./row-cells.ts";
import { lookupOf } from "./row-cells.ts";

type PlanRow = Entity<"flight"> | Entity<"sortie">;

const MAX_SLUG = 40;

/** "Packhorse 7" → "packhorse-7" */
export const slugOf = (name: string): string =>
  name
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, MAX_SLUG) || "row";

export interface Keys<R extends PlanRow> {
  /** The row of the plan that the cells mean; null: they make a new one. */
  before(cells: RowCells): R | null;
  /** The key of a new row: as given, else made from its name and not in use. */
  fresh(cells: RowCells): string;
}

const keysOf = <R extends PlanRow>(rows: readonly R[]): Keys<R> => {
  const byKey = new Map(rows.map((row) => [row.key, row]));
  const byName = new Map<string, R[]>();
  for (const row of rows) byName.set(row.name, [...(byName.get(row.name) ?? []), row]);
  const used = new Set(byKey.keys());
  /** A second flight beside the one that was meant would be forecast, and nobody would know why. */
  const askNear = (cells: RowCells): void => {
    const name = cells.text("name").trim();
    const near = rows.find((row) => isNear(row.name, name));
    if (near !== undefined)
      cells.fault(
        "name",
        `The plan has “${near.name}”, and none of just this name. If it is meant, write its name or its key (${near.key}); if this is a new one, give it a key of its own.`,
      );
  };
  return {
    before: (cells) => {
      const key = cells.text("key").trim();
      if (key !== "") return byKey.get(key) ?? null;
      const [row, second] = byName.get(cells.text("name")) ?? [];
      if (second !== undefined)
        cells.fault(
          "name",
          `There are several of this name in the plan: say which by its key (${row?.key}, ${second.key}).`,
        );
      if (row === undefined) askNear(cells);
      return row ?? null;
    },
    fresh: (cells) => {
      const given = cells.text("key").trim();
      if (given !== "") return given;
      const slug = slugOf(cells.text("name"));
      let key = slug;
      for (let n = 2; used.has(key); n += 1) key = `${slug}-${n}`;
      used.add(key);
      return key;
    },
  };
};

const placesOf = (entities: EntitySet) => [
  ...entities.source.map(({ id, name }) => ({ id, name, origin: { kind: "source" as const, sourceId: id } })),
  ...entities.depot.map(({ id, name }) => ({ id, name, origin: { kind: "depot" as const, depotId: id } })),
];

/** The only one there is; null: none, or several. */
const only = <T>(all: readonly T[]): T | null => (all.length === 1 ? (all[0] ?? null) : null);

/** Made once a file, used for each of its rows. */
export const planContext = (entities: EntitySet, planCaseId: string) => ({
  entities,
  planCaseId,
  classes: new Map(entities.craftClass.map((row) => [row.id, row])),
  craft: lookupOf(entities.craft),
  craftById: new Map(entities.craft.map((row) => [row.id, row])),
  places: lookupOf(placesOf(entities)),
  depots: lookupOf(entities.depot),
  campaigns: lookupOf(entities.campaign),
  /** Where a new flight must come from or go to, the other end given (null: not said); null: there are several ways. */
  onlyOrigin: (depotId: string | null) => only(placesOf(entities).filter(({ id }) => id !== depotId))?.origin ?? null,
  onlyDepot: (fromId: string | null) => only(entities.depot.filter(({ id }) => id !== fromId)),
  onlyCampaign: only(entities.campaign),
  onlyLander: only(
    entities.craft.filter(({ classId }) =>
      entities.craftClass.some(({ id, role }) => id === classId && role === "lander"),
    ),
  ),
  flights: keysOf(entities.flight),
  sorties: keysOf(entities.sortie),
});
export type PlanContext = ReturnType<typeof planContext>;
