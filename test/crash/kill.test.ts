/**
 * Nothing acknowledged is lost: the host of the service, one and the other in turn, is killed (SIGKILL) at a random
 * moment of a stream of edits, fifty times, ten times over each of five ledgers. After each kill the file is looked at by
 * SQLite itself, then opened again and read whole by the host that is the next to be killed.
 */
import { copyFileSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as delay } from "node:timers/promises";
import Sqlite from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { askEdit, editsIn, makeSmallLedger, tankGramsAfter } from "./edit-stream.ts";
import { type Host, hostInTurn } from "./hosts.ts";
import type { ServiceChild } from "./service-child.ts";

/**
 * `COLDSTOCK_KILL_LEDGERS=100` kills a thousand times; `COLDSTOCK_KILL_EDITS=1000` with longer streams;
 * `COLDSTOCK_KILL_FROM=74` begins at the 74th ledger, as with the same seed a run did that came so far.
 */
const LEDGERS = Number(process.env["COLDSTOCK_KILL_LEDGERS"] ?? 5);
const FROM = Number(process.env["COLDSTOCK_KILL_FROM"] ?? 1);
const KILLS_EACH = 10;
const EDITS = Number(process.env["COLDSTOCK_KILL_EDITS"] ?? 200);
/** Asked ahead of the answers, so that a kill meets edits on their way. */
const AHEAD = 8;
const LONGEST_DELAY_MS = 3;

/** mulberry32, a published few-line generator: the kills differ from each other, and a failing run can be repeated. */
const randomFrom = (seed: number) => (): number => {
  seed = (seed + 0x6d2b79f5) | 0;
  let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
};

const upTo = (n: number): readonly number[] => Array.from({ length: n }, (_, index) => index + 1);
const ledgers = upTo(LEDGERS).map((n) => n + FROM - 1);

const seed = Number(process.env["COLDSTOCK_CRASH_SEED"] ?? Date.now() % 1_000_000);
/** Of the ledger in hand: each has numbers of its own, so that one can be repeated without those before it. */
let random = randomFrom(seed);

let folder = "";
let path = "";
let host: Host;
/** Has the ledger open. */
let service: ServiceChild;
/** Where the next stream of edits begins; the edits of all streams are numbered through. */
let nextNumber = 1;
/** What the ledger held after the kill before. */
let heldBefore: readonly number[] = [];

interface Round {
  readonly first: number;
  readonly sent: number;
  readonly acknowledged: readonly number[];
}

/** Streams edits and kills the service when a random number of them was acknowledged, plus a random instant. */
const streamUntilKilled = async (): Promise<Round> => {
  const first = nextNumber;
  const killAfter = Math.floor(random() * (EDITS - AHEAD));
  const delayMs = random() * LONGEST_DELAY_MS;
  const acknowledged: number[] = [];
  let sent = 0;
  const deaths: Promise<void>[] = [];
  const worker = async (): Promise<void> => {
    while (sent < EDITS) {
      const number = first + sent++;
      const reply = await askEdit(service, number);
      if (reply === null) return;
      if (!reply.ok) throw new Error(`edit ${number} was refused: ${reply.failure.message}`);
      acknowledged.push(number);
      if (acknowledged.length > killAfter && deaths.length === 0)
        deaths.push(delay(delayMs).then(() => service.kill()));
    }
  };
  await Promise.all(Array.from({ length: AHEAD }, worker));
  await Promise.all(deaths);
  return { first, sent, acknowledged };
};

/** What SQLite itself says of the file as the kill left it: looked at in a copy, so that the ledger's own recovery is not helped. */
const rawVerdict = () => {
  const copy = join(folder, "copy.coldstock");
  for (const ending of ["", "-wal"]) {
    rmSync(copy + ending, { force: true });
    if (existsSync(path + ending)) copyFileSync(path + ending, copy + ending);
  }
  const db = new Sqlite(copy);
  try {
    return {
      integrity: db.pragma("integrity_check", { simple: true }),
      foreignKeys: db.pragma("foreign_key_check"),
      unbalanced: db
        .prepare(
          `SELECT p.entry_no FROM posting p JOIN account a ON a.no = p.account_no
           GROUP BY p.entry_no, a.propellant_id HAVING sum(p.grams) <> 0`,
        )
        .all(),
      total: db.prepare("SELECT coalesce(sum(grams), 0) AS total FROM posting").get(),
    };
  } finally {
    db.close();
  }
};

/** So far, of the whole run. */
let [kills, acknowledgedInAll] = [0, 0];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-kill-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(ledgers)(`ledger %i, killed ${KILLS_EACH} times within ${EDITS} edits (seed ${seed})`, (ledger) => {
  beforeAll(async () => {
    path = join(folder, `killed-${ledger}.coldstock`);
    host = hostInTurn(ledger);
    random = randomFrom(seed + ledger * 1_000_003);
    nextNumber = 1;
    heldBefore = [];
    service = host.start();
    await makeSmallLedger(service, path);
  });
  afterAll(async () => {
    await service.close();
    console.log(`${kills} kills, ${acknowledgedInAll} acknowledged edits looked for and found (seed ${seed})`);
  });

  it.for(upTo(KILLS_EACH))("kill %i loses nothing acknowledged", async (_kill, { task }) => {
    const { first, sent, acknowledged } = await streamUntilKilled();
    expect(acknowledged.length).toBeGreaterThan(0);
    expect(rawVerdict()).toEqual({ integrity: "ok", foreignKeys: [], unbalanced: [], total: { total: 0 } });

    service = host.start();
    const info = await service.must("ledger.open", { path });
    expect(info.readOnlyBecause).toBeNull();
    const held = editsIn(await service.must("ledger.export", {}));
    expect(await service.must("ledger.verify", {})).toMatchObject({ isSound: true, faults: [] });
    const sums = await service.must("journal.page", {
      fromAt: null,
      untilAt: null,
      accountKind: "tank",
      ownerId: "tarn-lox",
      propellantId: "lox",
      subjectKey: null,
      text: "",
      offset: 0,
      limit: 1,
    });

    // Nothing acknowledged is missing, of this round or an earlier one; what is held was asked.
    const last = held.at(-1) ?? 0;
    const known = new Set(held);
    expect([...heldBefore, ...acknowledged].filter((number) => !known.has(number))).toEqual([]);
    // Where the order is kept, every edit up to some number and none beyond: nothing came in out of turn.
    if (host.isInOrder) expect(held).toEqual(upTo(last));
    expect(last).toBeLessThan(first + sent);
    const tank = sums.sums.find((sum) => sum.account.kind === "tank" && sum.account.ownerId === "tarn-lox");
    expect(tank?.grams).toBe(tankGramsAfter(held));
    // What was asked and is not held is not asked again: the next numbers are new, whatever came of these.
    nextNumber = host.isInOrder ? last + 1 : first + sent;
    heldBefore = held;
    kills += 1;
    acknowledgedInAll += acknowledged.length;
    Object.assign(task.meta, { figures: { kills: 1, "acknowledged edits": acknowledged.length } });
  });
});
