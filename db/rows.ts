/** Reads and writes the rows of the plan, whatever their kind. */
import type { Entity, EntityKind } from "../app/entity/entities.ts";
import { type Column, type TableMap, tables } from "./columns.ts";
import type { Connection } from "./connection.ts";

type Cell = string | number | null;

const toCell = (value: unknown, column: Column): Cell => {
  if (value === null || value === undefined) return null;
  if (column.type === "json") return JSON.stringify(value);
  return typeof value === "boolean" ? Number(value) : (value as string | number);
};

const fromCell = (cell: Cell, column: Column): unknown => {
  if (cell === null) return null;
  if (column.type === "json") return JSON.parse(cell as string) as unknown;
  return column.type === "boolean" ? cell === 1 : cell;
};

const mapOf = (kind: EntityKind): TableMap => {
  const map = tables.get(kind);
  if (map === undefined) throw new Error(`no table for ${kind}`);
  return map;
};

const entityOf = <K extends EntityKind>(map: TableMap, cells: readonly Cell[]): Entity<K> =>
  Object.fromEntries(
    map.columns.map((column, i) => [column.property, fromCell(cells[i] ?? null, column)]),
  ) as Entity<K>;

const selectSql = (map: TableMap) => `SELECT ${map.columns.map((c) => c.column).join(", ")} FROM ${map.table}`;

/** All rows of a kind, by id. */
export const readRows = <K extends EntityKind>(db: Connection, kind: K): readonly Entity<K>[] => {
  const map = mapOf(kind);
  const rows = db
    .prepared(`${selectSql(map)} ORDER BY id`)
    .raw()
    .all() as Cell[][];
  return rows.map((cells) => entityOf<K>(map, cells));
};

/** One row; null: there is none. */
export const readRow = <K extends EntityKind>(db: Connection, kind: K, id: string): Entity<K> | null => {
  const map = mapOf(kind);
  const cells = db
    .prepared(`${selectSql(map)} WHERE id = ?`)
    .raw()
    .get(id) as Cell[] | undefined;
  return cells === undefined ? null : entityOf<K>(map, cells);
};

/** Writes a whole row, new or not. An update, never a replacement: a replacement would pass by the delete triggers. */
export const putRow = <K extends EntityKind>(db: Connection, kind: K, value: Entity<K>): void => {
  const map = mapOf(kind);
  const names = map.columns.map((c) => c.column);
  const updates = names.filter((name) => name !== "id").map((name) => `${name} = excluded.${name}`);
  const cells = map.columns.map((column) => toCell(value[column.property as keyof Entity<K>], column));
  db.prepared(
    `INSERT INTO ${map.table} (${names.join(", ")}) VALUES (${names.map(() => "?").join(", ")})
     ON CONFLICT (id) DO UPDATE SET ${updates.join(", ")}`,
  ).run(cells);
};

export const removeRow = (db: Connection, kind: EntityKind, id: string): void => {
  db.prepared(`DELETE FROM ${mapOf(kind).table} WHERE id = ?`).run(id);
};
