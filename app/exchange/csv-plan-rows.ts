/** Rows of a CSV file as flights and sorties of a plan case. */
import type { Entity, EntitySet } from "../ledger/entities.ts";
import { DAY_MS } from "../ledger/quantity.ts";
import type { CellReader } from "./csv-cells.ts";

const MOST_SLUG = 40;

/** "Packhorse 7" → "packhorse-7" */
const slugOf = (name: string): string =>
  name
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, MOST_SLUG) || "row";

/** The row's key: as given, else of the row of that name, else made from the name and not in use. */
const keyOf = (
  cells: CellReader,
  rows: readonly { readonly key: string; readonly name: string }[],
  taken: ReadonlySet<string>,
): string => {
  if (cells.has("key")) return cells.text("key");
  const name = cells.text("name");
  const same = rows.find((row) => row.name === name && !taken.has(row.key));
  if (same !== undefined) return same.key;
  const slug = slugOf(name);
  const isUsed = (key: string): boolean => taken.has(key) || rows.some((row) => row.key === key);
  let key = slug;
  for (let n = 2; isUsed(key); n += 1) key = `${slug}-${n}`;
  return key;
};

/** A flight: name, craft, from, to, departs, arrives; berth days, "hydrogen kg" …, overflow, status, note, key at will. */
export const flightRow = (
  cells: CellReader,
  entities: EntitySet,
  planCaseId: string,
  taken: ReadonlySet<string>,
): unknown => {
  const key = keyOf(cells, entities.flight, taken);
  const before = entities.flight.find((row) => row.key === key);
  const craft = cells.one("craft", "tanker", entities.craft);
  const craftClass = entities.craftClass.find((row) => row.id === craft?.classId);
  const places = [
    ...entities.source.map(({ id, name }) => ({ id, name, origin: { kind: "source" as const, sourceId: id } })),
    ...entities.depot.map(({ id, name }) => ({ id, name, origin: { kind: "depot" as const, depotId: id } })),
  ];
  const arriveAt = cells.instant("arrives");
  const berth = cells.figure("berth days", true);
  const loads = entities.propellant.flatMap(({ id, name }) => {
    const column = [`${id} kg`, `${name.toLowerCase()} kg`].find((each) => cells.has(each));
    const usual = craftClass?.propellants.find((line) => line.propellantId === id)?.loadKg;
    const loadedKg = column === undefined ? usual : cells.figure(column);
    return loadedKg === undefined || loadedKg === null ? [] : [{ propellantId: id, loadedKg }];
  });
  const departAt =
    cells.has("departs") || arriveAt === null
      ? cells.instant("departs")
      : arriveAt - (craftClass?.tripDays ?? 0) * DAY_MS;
  return {
    id: before?.id ?? `${planCaseId}.${key}`.slice(0, 64),
    planCaseId,
    key,
    name: cells.text("name"),
    craftId: craft?.id,
    origin: cells.one("from", "source or depot", places)?.origin,
    depotId: cells.one("to", "depot", entities.depot)?.id,
    departAt,
    arriveAt,
    berthDays: berth ?? craftClass?.berthDays ?? 0,
    loads,
    overflow: cells.choice("overflow", ["keep aboard", "vent"], "keep aboard"),
    status: cells.choice("status", ["planned", "firm", "cancelled"], "planned"),
    note: cells.text("note"),
  };
};

const demandOf = (cells: CellReader, entities: EntitySet, before: Entity<"sortie"> | undefined): unknown => {
  const lines = entities.propellant.flatMap(({ id, name }) => {
    const [load, home] = [" load kg", " return kg"].map((ending) =>
      [`${id}${ending}`, `${name.toLowerCase()}${ending}`].find((each) => cells.has(each)),
    );
    if (load === undefined) return [];
    return [{ propellantId: id, loadKg: cells.figure(load), returnKg: home === undefined ? 0 : cells.figure(home) }];
  });
  return lines.length > 0 ? { kind: "stated", lines } : (before?.demand ?? { kind: "class" });
};

/** A sortie: name, campaign, lander, depot, loads, returns; "hydrogen load kg", "hydrogen return kg" …, note, key at will. */
export const sortieRow = (
  cells: CellReader,
  entities: EntitySet,
  planCaseId: string,
  taken: ReadonlySet<string>,
): unknown => {
  const key = keyOf(cells, entities.sortie, taken);
  const before = entities.sortie.find((row) => row.key === key);
  const lander = cells.one("lander", "lander", entities.craft);
  const craftClass = entities.craftClass.find((row) => row.id === lander?.classId);
  const loadAt = cells.instant("loads");
  const usual = loadAt === null ? null : loadAt + (craftClass?.tripDays ?? 0) * DAY_MS;
  return {
    id: before?.id ?? `${planCaseId}.${key}`.slice(0, 64),
    planCaseId,
    key,
    campaignId: cells.one("campaign", "campaign", entities.campaign)?.id,
    landerId: lander?.id,
    depotId: cells.one("depot", "depot", entities.depot)?.id,
    name: cells.text("name"),
    loadAt,
    returnAt: cells.has("returns") ? cells.instant("returns") : usual,
    demand: demandOf(cells, entities, before),
    status: cells.choice("status", ["planned", "cancelled"], "planned"),
    note: cells.text("note"),
  };
};
