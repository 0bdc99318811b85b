/**
 * One bit of a ledger file turned, wherever it lies: the file is refused, or the check of it finds the fault, or it says
 * still what it said. `COLDSTOCK_FLIPS=5000` turns more than two hundred, `COLDSTOCK_CRASH_SEED=…` repeats a run.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { PlanningError } from "../../app/ground/failure.ts";
import { openLedger } from "../../db/ledger.ts";
import { chances } from "../fuzz/mutations.ts";
import { startTestService } from "../main/service/test-service.ts";
import { askEdit, makeSmallLedger } from "./edit-stream.ts";
import type { ServiceChild } from "./service-child.ts";

const FLIPS = Number(process.env["COLDSTOCK_FLIPS"] ?? 200);
const seed = Number(process.env["COLDSTOCK_CRASH_SEED"] ?? Date.now() % 1e9);
const folder = mkdtempSync(join(tmpdir(), "coldstock-flips-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What the file says: "refused" and "not sound" in words, or all that it holds. */
const saidBy = (path: string): string => {
  try {
    const store = openLedger(path);
    try {
      const { isSound, faults } = store.verify();
      return isSound ? JSON.stringify([store.document(), store.history(0, 100)]) : `not sound: ${faults[0]}`;
    } finally {
      store.close();
    }
  } catch (error) {
    if (error instanceof PlanningError && error.code !== "defect") return `refused: ${error.message}`;
    throw error;
  }
};

it(`${FLIPS} bits turned, one by one (seed ${seed}): none changes what a ledger says that is called sound`, async () => {
  const rig = startTestService();
  const child = { ask: rig.service.call } as unknown as ServiceChild;
  const must: ServiceChild["must"] = async (name, input) => {
    const reply = await rig.service.call(name, input);
    if (!reply.ok) throw new Error(reply.failure.message);
    return reply.value;
  };
  await makeSmallLedger({ ...child, must }, rig.path("small"));
  for (let n = 1; n <= 30; n += 1) await askEdit(child, n);
  const whole = join(folder, "whole.coldstock");
  await must("ledger.copy", { path: whole });
  await rig.end();

  const bytes = readFileSync(whole);
  const said = saidBy(whole);
  expect(said).toMatch(/Killed and opened again/);
  const chance = chances(seed);
  const path = join(folder, "turned.coldstock");
  const wrong: string[] = [];
  let found = 0;
  for (let n = 0; n < FLIPS; n += 1) {
    const turned = Buffer.from(bytes);
    const [at, bit] = [Math.floor(chance() * bytes.length), Math.floor(chance() * 8)];
    turned[at] = (turned[at] ?? 0) ^ (1 << bit);
    for (const ending of ["", "-wal", "-shm"]) rmSync(path + ending, { force: true });
    writeFileSync(path, turned);
    const now = saidBy(path);
    if (/^(?:refused|not sound): /.test(now)) found += 1;
    else if (now !== said) wrong.push(`byte ${at}, bit ${bit}`);
  }
  expect(wrong).toEqual([]);
  // Most of a small file is free room; some of the bits must matter, or nothing was shown.
  expect(found).toBeGreaterThan(FLIPS / 20);
});
