/**
 * The power goes, under either host: what the service wrote is recorded by strace, and the disk is put together as it may be found afterwards.
 * What was synced is there; of what was not, all, some sectors or nothing. Whatever was acknowledged must be in the ledger.
 * `COLDSTOCK_CUTS=…` tries more than 200, `COLDSTOCK_CRASH_SEED=…` repeats a run.
 */
import { execFile, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { promisify } from "node:util";
import { afterAll, describe, expect, it } from "vitest";
import { openLedger } from "../../db/ledger.ts";
import { powerProgram } from "../suite/programs.ts";
import { type Fate, RECORDED, makeDisk, readRecord } from "./calls/disk-log.ts";
import { editsIn } from "./edit-stream.ts";

const CUTS = Number(process.env["COLDSTOCK_CUTS"] ?? 200);
const EDITS = Number(process.env["COLDSTOCK_CUT_EDITS"] ?? 20);
const seed = Number(process.env["COLDSTOCK_CRASH_SEED"] ?? Date.now() % 1e9);

const root = mkdtempSync(join(tmpdir(), "coldstock-power-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const canWatch = spawnSync("strace", ["-f", "-o", "/dev/null", "true"]).status === 0;

/** Numbers from 0 to 1 that repeat for a seed (a 32-bit mix of a counter). */
const chances = (from: number): (() => number) => {
  let state = from >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
};

/** What the ledger holds after the cut, or why it cannot be opened. */
const found = (disk: ReadonlyMap<string, Buffer>, from: string, ledger: string): string => {
  const place = mkdtempSync(join(root, "cut-"));
  try {
    for (const [path, content] of disk) {
      if (basename(path) === "heard" || path.endsWith("-shm") || path.endsWith(".lock")) continue;
      const target = join(place, path.slice(from.length));
      mkdirSync(dirname(target), { recursive: true });
      writeFileSync(target, content);
    }
    const store = openLedger(join(place, ledger));
    try {
      const { isSound, faults } = store.verify();
      return isSound ? JSON.stringify(editsIn(store.document())) : `not sound: ${faults[0]}`;
    } finally {
      store.close();
    }
  } catch (error) {
    return `${String(error)} (there are ${readdirSync(place).join(", ")})`;
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
};

/** Each host has half of the cuts. */
const CUTS_EACH = Math.ceil(CUTS / 2);

describe.runIf(canWatch)(`${CUTS} power cuts, recorded by strace`, () => {
  it.for(["desktop", "browser"])(
    "of the %s host: nothing acknowledged is lost, nothing is unsound",
    async (host, { task }) => {
      const folder = join(root, `${host}-disk`);
      mkdirSync(folder);
      const record = join(root, `${host}-record`);
      const watching = ["-f", "-qq", "-xx", "-y", "-s", "9000000", "-e", RECORDED, "-e", "signal=none", "-o", record];
      const { stdout } = await promisify(execFile)(
        "strace",
        [...watching, process.execPath, powerProgram, folder, String(EDITS)],
        { env: { ...process.env, COLDSTOCK_CRASH_HOST: host } },
      );
      const states = JSON.parse(stdout) as readonly (readonly number[])[];
      const events = readRecord(readFileSync(record, "latin1"), folder, join(folder, "heard"));
      const heard = events.flatMap((event, place) => (event.kind === "heard" ? [{ place, number: event.number }] : []));
      expect(heard.map(({ number }) => number)).toEqual(states.map((_state, number) => number));

      const first = heard[0]?.place ?? 0;
      const fates: readonly Fate[] = ["mixed", "lost", "mixed", "kept"];
      const wrong: string[] = [];
      const chance = chances(seed);
      const cuts = Array.from({ length: CUTS_EACH }, () => first + 1 + Math.floor(chance() * (events.length - first)));
      const disk = makeDisk();
      let done = 0;
      for (const [n, until] of cuts.toSorted((a, b) => a - b).entries()) {
        for (const event of events.slice(done, until)) disk.apply(event);
        done = until;
        const last = heard.findLast(({ place }) => place < until)?.number ?? 0;
        const fate = fates[n % fates.length] ?? "mixed";
        const holds = found(disk.cut(fate, chance), folder, "small.coldstock");
        // What was acknowledged, or that and what was just being done.
        const allowed = [states[last], states[last + 1] ?? states[last]].map((edits) =>
          JSON.stringify(edits?.toSorted((a, b) => a - b)),
        );
        if (!allowed.includes(holds))
          wrong.push(`cut at ${until} of ${events.length}, ${fate}, after ${last}: ${holds}`);
      }
      // The same record without one kind of sync: a disk that forgot the log must be found out, or all this shows nothing.
      const forgetful = makeDisk();
      const middle = heard[Math.floor(EDITS / 2)] ?? { place: 0, number: 0 };
      for (const event of events.slice(0, middle.place + 1))
        if (event.kind !== "sync" || !event.path.endsWith("-wal")) forgetful.apply(event);
      expect(found(forgetful.cut("lost", chance), folder, "small.coldstock")).not.toBe(
        JSON.stringify(states[middle.number]),
      );
      Object.assign(task.meta, { figures: { "power cuts": CUTS_EACH } });
      expect(wrong, `COLDSTOCK_CRASH_SEED=${seed}`).toEqual([]);
    },
  );
});
