/** The migration that brings sortie profiles: an older file is carried over, and its old edits can still be undone. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import { heronCached, heronLander } from "../../app/demo/heron.ts";
import type { Change } from "../../app/entity/entities.ts";
import { connectionOver } from "../../db/connection.ts";
import { createLedger, openLedger } from "../../db/ledger.ts";
import { migrate, readMigrations } from "../../db/migrate.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "profiles-"));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

const step = (changes: readonly Change[]) => ({
  label: "a change",
  reason: "",
  author: "test",
  recordedAt: 1,
  changes,
  entries: [],
  readings: [],
  withdrawnReadingIds: [],
  reversedEntryIds: [],
});

const propellants: Change[] = ["hydrogen", "oxygen", "hydrazine"].map((id, position) => ({
  op: "put",
  kind: "propellant",
  value: { id, name: id, symbol: id.slice(0, 4), fluid: null, densityKgPerM3: [70.8, 1141, 1008][position]!, position },
}));

const heronClass = {
  id: "heron",
  name: "Heron",
  role: "lander" as const,
  propellants: [],
  tripDays: 8,
  berthDays: 0,
  note: "größer als 60 t",
};

/** What later forms added to a class. */
const since = { turnaroundDays: 0, costPerFlight: null, costUnit: "", hardwareKg: null };

test("a file of form 10 is brought forward with its rows, and an edit made before can be undone and redone", () => {
  const path = join(folder, "old.coldstock");
  const raw = new Sqlite(path);
  migrate(connectionOver(raw), readMigrations().slice(0, 1));
  raw.exec(`INSERT INTO ledger VALUES (1, 'Old', 0, NULL, 2)`);
  raw.prepare("INSERT INTO craft_class VALUES ('heron', 'Heron', 'lander', '[]', 8, 0, ?)").run(heronClass.note);
  raw.exec(`INSERT INTO craft VALUES ('one', 'heron', 'One', '')`);
  raw.exec(`INSERT INTO edit_step (at, author, label, reason, state) VALUES (1, 'a', 'New lander', '', 'done')`);
  const put = raw.prepare("INSERT INTO edit_change VALUES (1, ?, ?, ?, NULL, ?)");
  put.run(0, "craftClass", "heron", JSON.stringify(heronClass));
  put.run(1, "craft", "one", JSON.stringify({ id: "one", classId: "heron", name: "One", note: "" }));
  raw.close();

  const store = openLedger(path);
  expect(store.header().schemaVersion).toBe(readMigrations().at(-1)?.version);
  expect(store.entities().craftClass).toEqual([{ ...heronClass, ...since, lander: null }]);
  expect(store.entities().craft).toMatchObject([{ id: "one", engineChanges: [] }]);
  store.undo("b", 2);
  expect(store.entities().craftClass).toEqual([]);
  store.redo("b", 3);
  expect(store.entities().craft).toMatchObject([{ id: "one", engineChanges: [] }]);
  store.close();
});

test("a lander's sheet, a profile and an engine change are kept as they were written", () => {
  const store = createLedger(join(folder, "new.coldstock"), { programme: "New" });
  const described = { ...heronClass, ...since, lander: heronLander };
  const one = {
    id: "one",
    classId: "heron",
    name: "One",
    note: "",
    engineChanges: [{ at: 86_400_000, note: "spare set" }],
  };
  store.commit(
    step([
      ...propellants,
      { op: "put", kind: "craftClass", value: described },
      { op: "put", kind: "profile", value: heronCached },
      { op: "put", kind: "craft", value: one },
    ]),
  );
  store.close();
  const again = openLedger(join(folder, "new.coldstock"));
  expect(again.entities()).toMatchObject({ craftClass: [described], profile: [heronCached], craft: [one] });
  again.close();
});

test("a profile that cannot be meant is refused with the place of its fault, and one in use cannot be removed", () => {
  const store = createLedger(join(folder, "new.coldstock"), { programme: "New" });
  store.commit(
    step([...propellants, { op: "put", kind: "craftClass", value: { ...heronClass, ...since, lander: heronLander } }]),
  );
  const untaken = { ...heronCached, steps: heronCached.steps.filter(({ kind }) => kind !== "take up cache") };
  expect(() => store.commit(step([{ op: "put", kind: "profile", value: untaken }]))).toThrow(
    expect.objectContaining({
      code: "refused",
      message: expect.stringMatching(/"low orbit" is left and never taken up/),
      field: "changes.0.value.steps.3.cache",
    }),
  );
  expect(store.entities().profile).toEqual([]);
  store.close();
});
