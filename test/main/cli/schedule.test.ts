/** `schedule` proposes the flights that keep the sorties supplied, and takes them as a plan case. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-schedule-"));
const ledger = join(folder, "tarn.coldstock");
beforeAll(() => loadDocument(ledger, demoTarn()).close());
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("the short sortie is cured, the proposal taken as a case, and the case confirmed supplied", async () => {
  const planned = await run("schedule", ledger, "--take", "Cured");
  expect(planned.status).toBe(0);
  expect(planned.out).toContain("1 flight supplies every sortie; it cannot be done with none");
  expect(planned.out).toContain("Taken as plan case Cured.");
  const before = JSON.parse((await run("check", ledger, "--json")).out) as { sorties: { status: string }[] };
  expect(before.sorties.map(({ status }) => status)).toContain("short");
  const after = JSON.parse((await run("check", ledger, "--case", "Cured", "--json")).out) as typeof before;
  expect(after.sorties.every(({ status }) => status === "supplied")).toBe(true);
});

test("bad use is status 2, in words", async () => {
  const wrong = await run("schedule", ledger, "--least", "fuel");
  expect(wrong.status).toBe(2);
  expect(wrong.err).toContain("flights, cost or loss");
  expect((await run("schedule", ledger, "--until", "soon")).status).toBe(2);
});

test("--leave-by lists the planned flights by the date to leave by, and takes no options of a proposal", async () => {
  const listed = await run("schedule", ledger, "--leave-by");
  expect(listed.status).toBe(0);
  expect(listed.out).toContain("Leave by");
  expect(listed.out).toMatch(/All \d+ flights of \w+ together/);
  const { flights } = JSON.parse((await run("schedule", ledger, "--leave-by", "--json")).out) as {
    flights: { latestAt: number | null }[];
  };
  const dates = flights.map(({ latestAt }) => latestAt ?? Infinity);
  expect(dates.length).toBeGreaterThan(2);
  expect(dates).toEqual(dates.toSorted((a, b) => a - b));
  const wrong = await run("schedule", ledger, "--leave-by", "--take", "New");
  expect(wrong.status).toBe(2);
  expect(wrong.err).toContain("--leave-by");
});

test("--repair after a loss: what to change, taken as a case that is supplied", async () => {
  const repaired = await run("schedule", ledger, "--repair", "--if-lost", "Packhorse 6", "--take", "Repaired");
  expect(repaired.status).toBe(0);
  expect(repaired.out).toContain("Unrepaired, Sortie 5 lacks");
  expect(repaired.out).toContain("Taken as plan case Repaired.");
  const after = JSON.parse((await run("check", ledger, "--case", "Repaired", "--json")).out) as {
    sorties: { status: string }[];
  };
  expect(after.sorties.every(({ status }) => status === "supplied")).toBe(true);
  expect((await run("schedule", ledger, "--repair", "--if-late", "Drover 5=soon")).err).toContain("--if-late");
  expect((await run("schedule", ledger, "--if-lost", "Drover 5")).status).toBe(2);
  expect((await run("schedule", ledger, "--repair", "--if-lost", "Nobody")).err).toContain('no flight "Nobody"');
});

test("a margin, a cadence and a probability are asked for by name, and answered in words", async () => {
  const asked = ["--margin", "Oxygen=200", "--every", "Drover=20", "--chance", "5"] as const;
  const likely = await run("schedule", ledger, ...asked);
  expect(likely.status).toBe(0);
  expect(likely.out).toContain("200\u202fkg of oxygen stays above the reserve after each loading");
  expect(likely.out).toMatch(/All sorties fly when planned with .* at least the 5\s% asked/);
  for (const [option, value] of [
    ["--margin", "Oxygen"],
    ["--margin", "Argon=3"],
    ["--chance", "120"],
    ["--every", "Drover=often"],
  ] as const) {
    const wrong = await run("schedule", ledger, option, value);
    expect(wrong.status).toBe(2);
    expect(wrong.err).toContain(option);
  }
});
