/**
 * The form of the file and how it is brought forward.
 * A new step: write db/migrations/00N0-what.sql; run this test with -u and look at the schema's difference; keep its hash
 * and a file of it as test/db/released/README.md says.
 */
import { createHash } from "node:crypto";
import { copyFileSync, existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Sqlite from "better-sqlite3";
import { describe, expect, test } from "vitest";
import { entityKinds, entitySchemas } from "../../app/entity/entities.ts";
import { documentText } from "../../app/exchange/ledger-document.ts";
import { entityColumns, tables } from "../../db/columns.ts";
import { connectionOver } from "../../db/connection.ts";
import { createLedger, openLedger } from "../../db/ledger.ts";
import { backupPath, migrate, newestVersion, readMigrations } from "../../db/migrate.ts";
import { temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();
const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const steps = readMigrations();

const fresh = () => {
  const db = connectionOver(new Sqlite(":memory:"));
  migrate(db, steps);
  return db;
};

test("the whole chain gives the schema that was looked at", async () => {
  const sql = fresh()
    .sqlite.prepare("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type, name")
    .pluck()
    .all() as string[];
  await expect(`${sql.join(";\n\n")};\n`).toMatchFileSnapshot(here("schema.snapshot.sql"));
});

test("no shipped step was edited", () => {
  const shipped = JSON.parse(readFileSync(here("../../db/migrations/shipped.json"), "utf8")) as Record<string, string>;
  const now = Object.fromEntries(steps.map(({ file, sql }) => [file, createHash("sha256").update(sql).digest("hex")]));
  expect(now).toEqual(shipped);
});

test("steps are numbered in tens, rising", () => {
  expect(steps.map(({ version }) => version % 10)).toEqual(steps.map(() => 0));
  expect(() => readMigrations(here("wrong-steps/unnumbered"))).toThrow(/NNNN-what\.sql/);
  expect(() => readMigrations(here("wrong-steps/repeated"))).toThrow(/repeats a number/);
});

test.each(entityKinds)("every property of a %s has its column, in the order of its schema", (kind) => {
  expect(Object.keys(entityColumns[kind])).toEqual(Object.keys(entitySchemas[kind].shape));
  const map = tables.get(kind)!;
  const columns = fresh().sqlite.pragma(`table_info(${map.table})`) as { name: string }[];
  expect(columns.map(({ name }) => name).toSorted()).toEqual(map.columns.map(({ column }) => column).toSorted());
});

describe("kept files of released forms", () => {
  const released = readdirSync(here("released")).filter((file) => file.endsWith(".coldstock"));
  test("the present form has one, so that the next can be tried on it", () => {
    expect(released).toContain(`form-${newestVersion(steps)}.coldstock`);
  });

  test.each(released)("%s opens, is sound, holds what its text says, and a copy was kept of it", (file) => {
    const path = join(folder, file);
    copyFileSync(here(`released/${file}`), path);
    const before = readFileSync(path);
    const store = openLedger(path);
    expect(store.header()).toMatchObject({ schemaVersion: newestVersion(steps), readOnlyBecause: null });
    expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
    expect(documentText(store.document())).toBe(readFileSync(here(`released/${file}.txt`), "utf8"));
    store.undo("Ada", 0);
    store.redo("Ada", 0);
    expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
    store.close();
    const version = Number(/^form-(\d+)/.exec(file)?.[1]);
    if (version < newestVersion(steps)) expect(readFileSync(backupPath(path, version)).equals(before)).toBe(true);
    else expect(existsSync(backupPath(path, version))).toBe(false);
  });

  test("the copy that is kept takes no older copy's place, and the same ledger is not kept twice", () => {
    const path = join(folder, "kept-before.coldstock");
    const backup = backupPath(path, 140);
    writeFileSync(backup, "an older copy");
    for (let time = 0; time < 2; time += 1) {
      copyFileSync(here("released/form-140.coldstock"), path);
      openLedger(path).close();
    }
    expect(readFileSync(backup, "utf8")).toBe("an older copy");
    const beside = readdirSync(folder).filter((name) => name.startsWith("kept-before") && name.includes("form-140"));
    const copies = beside
      .filter((name) => join(folder, name) !== backup)
      .map((name) => readFileSync(join(folder, name)));
    expect(copies.length).toBeGreaterThan(0);
    const original = readFileSync(here("released/form-140.coldstock"));
    for (const copy of copies) expect(copy.equals(original)).toBe(true);
  });
});

describe("a step that fails", () => {
  const make = () => {
    const path = join(folder, `failing-${Math.random()}.coldstock`);
    createLedger(path, { programme: "Before" }).close();
    return path;
  };
  const later = (sql: string) => [...steps, { version: 9000, file: "9000-test.sql", sql }];

  test.each([
    ["in its middle", "CREATE TABLE half (id TEXT); INSERT INTO nowhere VALUES (1);", /no such table/],
    ["by a broken reference", "INSERT INTO craft VALUES ('a', 'nothing', 'A', '', '[]');", /could not be brought/],
  ])("%s leaves the file as it was", (_how, sql, message) => {
    const path = make();
    const before = readFileSync(path);
    const db = connectionOver(new Sqlite(path));
    expect(() => migrate(db, later(sql))).toThrow(message);
    expect(db.sqlite.pragma("user_version", { simple: true })).toBe(newestVersion(steps));
    db.sqlite.close();
    expect(readFileSync(path).equals(before)).toBe(true);
    const store = openLedger(path);
    expect(store.header().programme).toBe("Before");
    expect(store.verify()).toMatchObject({ isSound: true });
    store.close();
  });

  test("and one of a newer program is refused untouched", () => {
    const path = make();
    const db = connectionOver(new Sqlite(path));
    migrate(db, later("CREATE TABLE more (id TEXT)"));
    db.sqlite.pragma("wal_checkpoint(TRUNCATE)");
    db.sqlite.close();
    const before = readFileSync(path);
    expect(() => openLedger(path)).toThrow(/newer version of this program \(its form is 9000/);
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});

test("a file is made whole or not at all", () => {
  const path = join(folder, "taken.coldstock");
  writeFileSync(path, "something of mine");
  expect(() => createLedger(path, { programme: "New" })).toThrow(/file of that name already/);
  expect(readFileSync(path, "utf8")).toBe("something of mine");
  expect(() => createLedger(join(folder, "no", "where.coldstock"), { programme: "New" })).toThrow(/no such folder/);
  expect(() => createLedger(join(folder, "long.coldstock"), { programme: "x".repeat(81) })).toThrow(/CHECK/);
  expect(readdirSync(folder).filter((file) => file.includes("draft") || file.startsWith("long"))).toEqual([]);
});
