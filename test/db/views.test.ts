/** The views for analysts: equal to the program's own answers, worked by hand where a record replaced what was planned. */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { demoTarn } from "../../app/demo/tarn.ts";
import { calendarMonthEdges } from "../../app/losses/months.ts";
import { recordArrival } from "../../app/records/record-arrival.ts";
import { recordDeparture } from "../../app/records/record-departure.ts";
import { recordReverse } from "../../app/records/record-reverse.ts";
import { loadDocument } from "../../db/ledger.ts";
import { VIEWS } from "../../db/views.ts";
import { client } from "../suite/clients.ts";
import { day, handLedger, recorder, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();
const DAY_MS = 86_400_000;

type Row = Readonly<Record<string, unknown>>;
const asked = (path: string, sql: string): readonly Row[] => {
  const db = new Sqlite(path, { readonly: true });
  try {
    db.exec(VIEWS);
    return db.prepare(sql).all() as Row[];
  } finally {
    db.close();
  }
};

const page = readFileSync(fileURLToPath(new URL("../../db/views.md", import.meta.url)), "utf8");
const examples = [...page.matchAll(/```sql\n([\s\S]*?)```/g)].map(([, sql]) => sql ?? "");
const tarn = (): string => {
  const path = join(folder, `tarn-${Math.random()}.coldstock`);
  loadDocument(path, demoTarn()).close();
  return path;
};

test("every view is told of on the page, and every example on it runs", () => {
  const path = tarn();
  const views = asked(path, "SELECT name FROM sqlite_temp_master WHERE type = 'view' ORDER BY name");
  expect(views.length).toBeGreaterThan(5);
  expect(views.filter(({ name }) => !page.includes(`\`${String(name)}\``))).toEqual([]);
  expect(examples.length).toBeGreaterThan(5);
  for (const sql of examples) asked(path, sql);
  expect(asked(path, examples[0] ?? "").length).toBeGreaterThan(0);
  expect(asked(path, examples[1] ?? "").length).toBeGreaterThan(3);
});

test("the examples run in the program that analysts have, with the same answers", client("sqlite3"), () => {
  const path = tarn();
  const script = join(folder, "views.sql");
  writeFileSync(script, VIEWS);
  for (const sql of examples) {
    const text = execFileSync("sqlite3", ["-readonly", "-json", "-init", script, path, sql], { encoding: "utf8" });
    expect(text.trim() === "" ? [] : JSON.parse(text)).toEqual(asked(path, sql));
  }
});

test("boil-off by month is the loss statement's, to the gram", () => {
  const store = loadDocument(join(folder, "statement.coldstock"), demoTarn());
  const entries = demoTarn().entries.map(({ at }) => at);
  const edges = calendarMonthEdges(Math.min(...entries) - DAY_MS, Math.max(...entries) + DAY_MS);
  const sums = store.statementSums([...edges]);
  const rows = asked(store.header().path, "SELECT * FROM loss_by_month_view");
  const columns = {
    boil_off_kg: "boilOffGrams",
    handover_loss_kg: "handoverLossGrams",
    vented_kg: "ventedGrams",
    unaccounted_kg: "unaccountedGrams",
  } as const;
  expect(sums.some(({ boilOffGrams }) => boilOffGrams > 0)).toBe(true);
  for (const sum of sums) {
    const month = new Date(sum.fromAt).toISOString().slice(0, 7);
    const row = rows.find(
      (each) =>
        each["month"] === month && each["depot_id"] === sum.depotId && each["propellant_id"] === sum.propellantId,
    );
    for (const [column, property] of Object.entries(columns))
      expect(Math.round(Number(row?.[column] ?? 0) * 1000)).toBe(sum[property]);
  }
  const all = rows.reduce((grams, row) => grams + Math.round(Number(row["boil_off_kg"]) * 1000), 0);
  expect(all).toBe(sums.reduce((grams, { boilOffGrams }) => grams + boilOffGrams, 0));
  store.close();
});

test("levels are those of the books, the last of each tank that of now", () => {
  const store = handLedger(folder);
  const rows = asked(
    store.header().path,
    "SELECT tank_id, level_kg, at, at_ms FROM level_view l WHERE at_ms = (SELECT max(at_ms) FROM level_view WHERE tank_id = l.tank_id)",
  );
  expect(rows.length).toBeGreaterThan(0);
  for (const { at, at_ms: ms } of rows) expect(at).toBe(new Date(ms as number).toISOString());
  const now = Object.fromEntries(rows.map(({ tank_id: id, level_kg: kg }) => [String(id), kg]));
  // The hand ledger opens with these and books nothing else.
  expect(now).toMatchObject(Object.fromEntries(Object.keys(now).map((id) => [id, expect.any(Number) as number])));
  for (const { tankId, massKg } of store.statedLevels()) expect(now[tankId]).toBeCloseTo(massKg, 9);
  store.close();
});

test("planned stands beside actual when records replaced it: by hand, three and five days late, 20 kg less", () => {
  const store = handLedger(folder);
  const { path } = store.header();
  const view = (columns: string): readonly Row[] =>
    asked(path, `SELECT ${columns} FROM flight_view WHERE flight_key = 'drover-1' ORDER BY plan_case`);
  // Planned: leaves on day 10 with 500 kg, is there on day 15.
  expect(view("status, planned_load_kg, actual_load_kg, actual_departure, departed_late_days")[0]).toEqual({
    status: "planned",
    planned_load_kg: 500,
    actual_load_kg: null,
    actual_departure: null,
    departed_late_days: null,
  });
  const flightId = store.entities().flight.find(({ key }) => key === "drover-1")?.id ?? "";
  const loads = [{ propellantId: "lh2", loadedKg: 480 }];
  store.commit(recordDeparture(store, { flightId, at: day(13), loads, note: "" }, recorder));
  const late = { departed_late_days: 3, planned_load_kg: 500, actual_load_kg: 480 };
  const columns = "departed_late_days, planned_load_kg, actual_load_kg, arrived_late_days, planned_arrival";
  const planned = { planned_arrival: new Date(day(15)).toISOString() };
  for (const row of view(columns)) expect(row).toEqual({ ...late, ...planned, arrived_late_days: null });
  const taken = [{ tankId: "mere-lh2", massKg: 470 }];
  store.commit(
    recordArrival(
      store,
      {
        flightId,
        at: day(20),
        taken,
        handoverLoss: [],
        leftAboard: [{ propellantId: "lh2", massKg: 10 }],
        vented: [],
        note: "",
      },
      recorder,
    ),
  );
  for (const row of view(columns)) expect(row).toEqual({ ...late, ...planned, arrived_late_days: 5 });
  const byPropellant = asked(
    path,
    `SELECT propellant_id, planned_load_kg, actual_load_kg FROM flight_load_view WHERE flight_id = '${flightId}'`,
  );
  expect(byPropellant).toEqual([{ propellant_id: "lh2", planned_load_kg: 500, actual_load_kg: 480 }]);
  // Undone, it is only planned again; done again, late again.
  store.undo("Ada", day(300));
  store.undo("Ada", day(300));
  expect(view("departed_late_days, planned_load_kg")[0]).toEqual({ departed_late_days: null, planned_load_kg: 500 });
  store.redo("Ada", day(300));
  expect(view(columns)[0]).toEqual({ ...late, ...planned, arrived_late_days: null });
  store.close();
});

test("a record taken back leaves the plan in sight, and the next one is measured against it", () => {
  const store = handLedger(folder);
  const { path } = store.header();
  const flightId = store.entities().flight.find(({ key }) => key === "drover-1")?.id ?? "";
  const loads = [{ propellantId: "lh2", loadedKg: 500 }];
  const depart = (n: number) =>
    store.commit(recordDeparture(store, { flightId, at: day(n), loads, note: "" }, recorder));
  depart(30);
  const entry = store.document().entries.findLast(({ kind }) => kind === "departure");
  store.commit(recordReverse(store, { entryId: entry?.id ?? "", reason: "a slip of the pen" }, recorder));
  depart(13);
  const rows = asked(path, "SELECT departed_late_days FROM flight_view WHERE flight_key = 'drover-1'");
  for (const row of rows) expect(row).toEqual({ departed_late_days: 3 });
  store.close();
});
