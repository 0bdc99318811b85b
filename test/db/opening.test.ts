/** Who may write: one opening at a time, another looks on and says who holds it; nobody waits for the dead. */
import { type ChildProcess, fork } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { basename, dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, expect, test } from "vitest";
import { openLedger } from "../../db/ledger.ts";
import { lockPath, takeWriterLock } from "../../db/writer-lock.ts";
import { day, handLedger, stepWith, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();
const children: ChildProcess[] = [];
afterEach(() => {
  for (const child of children.splice(0)) child.kill("SIGKILL");
});

/** Another process that opens the ledger; resolves with why it may only read (null: it may write). */
const openElsewhere = (path: string): Promise<{ child: ChildProcess; readOnlyBecause: string | null }> =>
  new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL("./opener.ts", import.meta.url)), [path]);
    children.push(child);
    child.once("message", (readOnlyBecause) => resolve({ child, readOnlyBecause: readOnlyBecause as string | null }));
    child.once("exit", (code) => reject(new Error(`the opener left with ${String(code)}`)));
  });

const gone = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    child.removeAllListeners("exit");
    child.once("exit", () => resolve());
    child.kill("SIGKILL");
  });

test("a second opening in the same process only reads, names the holder, and sees what the first writes", () => {
  const first = handLedger(folder);
  const { path } = first.header();
  const second = openLedger(path);
  expect(second.header().readOnlyBecause).toMatch(
    new RegExp(`open in process ${process.pid} on host .+, since \\d{4}-`),
  );
  expect(() => second.commit(stepWith({ asOfAt: day(1) }))).toThrow(/Nothing can be changed: it is open in process/);
  expect(() => second.undo("Ada", 0)).toThrow(/Nothing can be changed/);
  const [row] = first.entities().flight;
  expect(second.entities().flight[0]).toEqual(row);
  first.commit(stepWith({ changes: [{ op: "put", kind: "flight", value: { ...row!, name: "Renamed" } }] }));
  expect(second.entities().flight[0]?.name).toBe("Renamed");
  expect(second.header().revision).toBe(first.header().revision);
  first.close();
  second.close();
  const third = openLedger(path);
  expect(third.header().readOnlyBecause).toBeNull();
  third.close();
  expect(readdirSync(dirname(path)).filter((file) => file.includes(basename(path)))).toEqual([basename(path)]);
});

test("another process's opening only reads; killed while holding, it leaves the ledger free at once", async () => {
  const made = handLedger(folder);
  const { path } = made.header();
  made.close();
  const { child, readOnlyBecause } = await openElsewhere(path);
  expect(readOnlyBecause).toBeNull();
  const looking = openLedger(path);
  expect(looking.header().readOnlyBecause).toMatch(new RegExp(`process ${child.pid} on`));
  looking.close();
  await gone(child);
  expect(existsSync(lockPath(path))).toBe(true);
  const mine = openLedger(path);
  expect(mine.header().readOnlyBecause).toBeNull();
  expect((await openElsewhere(path)).readOnlyBecause).toMatch(new RegExp(`process ${process.pid} on`));
  mine.close();
});

test("of many that want the lock one has it, time after time", () => {
  const store = handLedger(folder);
  const { path } = store.header();
  store.close();
  for (let round = 0; round < 30; round += 1) {
    const takers = Array.from({ length: 4 }, () => takeWriterLock(path));
    expect(takers.filter((lock) => lock.isHeld)).toHaveLength(1);
    for (const lock of takers) if (lock.isHeld) lock.release();
  }
  expect(existsSync(lockPath(path))).toBe(false);
});
