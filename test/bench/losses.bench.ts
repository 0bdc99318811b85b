/** Fit of 2,000 readings; a statement of sixty months over a journal of a million postings; a month of it. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { demoTarn } from "../../app/demo/tarn.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { Reading } from "../../app/ledger/journal.ts";
import { fitRate } from "../../app/losses/fit/fit-rate.ts";
import { composeStatements } from "../../app/losses/statement.ts";
import { loadDocument, openLedger } from "../../db/ledger.ts";
import { type Bench, type BenchFigure, medianOf } from "./bench.ts";

const BEGIN_AT = Date.UTC(2030, 0, 1);
const ENTRIES = 333_334;

/** A reading every 8 hours, noise by a fixed sequence, a delivery every 20 days. */
const readings = (): readonly Reading[] => {
  let state = 1;
  const noise = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  let level = 30_000;
  return Array.from({ length: 2000 }, (_, place) => {
    if (place > 0) level -= (0.0013 * level + 8) / 3;
    if (place % 60 === 59) level += 900;
    return {
      id: `r${place}`,
      tankId: "t",
      at: BEGIN_AT + (place * DAY_MS) / 3,
      massKg: level + 200 * noise(),
      sigmaKg: 60,
      entryId: null,
      isWithdrawn: false,
      note: "",
    };
  });
};

const fitFigure = (): BenchFigure => {
  const list = readings();
  const transfers = list.flatMap((reading, place) => (place % 60 === 59 ? [{ at: reading.at, massKg: 900 }] : []));
  const fit = (): void => {
    fitRate({
      readings: list,
      transfers,
      fromAt: 0,
      untilAt: Date.UTC(2100, 0, 1),
      holdsKg: 100_000,
      fitted: "k and c",
      rate: { kPerDay: 0, cKgPerDay: 0 },
      leftOutIds: [],
    });
  };
  return { name: "fit of k and c on 2,000 readings", value: medianOf(9, fit), unit: "ms", limit: 50 };
};

/** Fills the journal behind the store's back: its own writing, checked posting by posting, is not what is measured. */
const fillJournal = (path: string): number => {
  const db = new Sqlite(path);
  const triggers = db.prepare("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").all() as {
    name: string;
    sql: string;
  }[];
  const tanks = demoTarn().entities.tank.filter((tank) => tank.ownerKind === "depot");
  const accounts = new Map<string, number>();
  for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
  const putAccount = db.prepare("INSERT INTO account (no, kind, owner_id, propellant_id) VALUES (?, ?, ?, ?)");
  const putEntry = db.prepare(
    "INSERT INTO entry (no, id, at, kind, note, author, recorded_at, state) VALUES (?, ?, ?, ?, '', '', 0, 'in force')",
  );
  const putPosting = db.prepare("INSERT INTO posting VALUES (?, ?, ?, ?, ?, ?)");
  const accountNo = (kind: string, ownerId: string, propellantId: string): number => {
    const key = `${kind} ${ownerId} ${propellantId}`;
    const no = accounts.get(key) ?? accounts.size + 1;
    if (!accounts.has(key)) putAccount.run(no, kind, ownerId, propellantId);
    accounts.set(key, no);
    return no;
  };
  db.transaction(() => {
    for (let no = 1; no <= ENTRIES; no++) {
      const tank = tanks[no % tanks.length];
      if (tank === undefined) continue;
      const at = BEGIN_AT + Math.floor((no * 5 * 365 * DAY_MS) / ENTRIES);
      const kind = (["arrival", "closing", "loading", "reading"] as const)[no % 4] ?? "closing";
      const isStating = kind === "closing" || kind === "reading";
      const [grams, other, loss] =
        kind === "arrival"
          ? [1000, "transit", "handover loss"]
          : kind === "loading"
            ? [-900, "transit", "handover loss"]
            : [-40, "boil-off", "unaccounted"];
      putEntry.run(no, `e${no}`, at, kind);
      const p = tank.propellantId;
      putPosting.run(no, 0, accountNo("tank", tank.id, p), grams, at, Number(isStating));
      putPosting.run(no, 1, accountNo(loss, tank.ownerId, p), 10, at, Number(isStating));
      putPosting.run(
        no,
        2,
        accountNo(other, other === "transit" ? `f${no % 300}` : tank.ownerId, p),
        -grams - 10,
        at,
        Number(isStating),
      );
    }
    db.exec(
      "UPDATE account SET balance_grams = (SELECT coalesce(sum(grams), 0) FROM posting WHERE account_no = account.no)",
    );
  })();
  for (const { sql } of triggers) db.exec(sql);
  const count = db.prepare("SELECT count(*) FROM posting").pluck().get() as number;
  db.close();
  return count;
};

const statementFigures = (): readonly BenchFigure[] => {
  const folder = mkdtempSync(join(tmpdir(), "losses-bench-"));
  try {
    const path = join(folder, "million.coldstock");
    loadDocument(path, { ...demoTarn(), entries: [], readings: [] }).close();
    const count = fillJournal(path);
    const store = openLedger(path);
    const edges = Array.from({ length: 61 }, (_, month) => Date.UTC(2030, month, 1));
    const whole = medianOf(7, () => void composeStatements(store.statementSums(edges)));
    const month = medianOf(7, () => void composeStatements(store.statementSums(edges.slice(40, 42))));
    store.close();
    const note = `${count.toLocaleString("en")} postings`;
    return [
      { name: "loss statement, 60 months", value: whole, unit: "ms", limit: 300, note },
      { name: "loss statement, one month", value: month, unit: "ms", limit: 300, note },
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
};

export const bench: Bench = { name: "losses", run: () => [fitFigure(), ...statementFigures()] };
