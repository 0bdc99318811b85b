/** `ways` compares what each vehicle takes from the ground, in words and as data, and refuses by name. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-ways-"));
const ledger = join(folder, "tarn.coldstock");
beforeAll(() => loadDocument(ledger, demoTarn()).close());
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("the demonstration: a table, the break-even of the two landers and what moves it most", async () => {
  const { out, status } = await run("ways", ledger, "--tanker", "Packhorse");
  expect(status).toBe(0);
  expect(out).toContain("Wren, Two stages, spent, launched whole");
  expect(out).toMatch(
    /From 4 sorties on Heron, Single stage takes less from the ground than Wren, .*break-even at 3\.6/,
  );
  expect(out).toMatch(/hangs most on Isp of Heron/);
  expect(out).toContain("what throws it to the Moon is in no way");
});

test("as data, over another number of sorties and against another way", async () => {
  const { out } = await run(
    "ways",
    ledger,
    "--json",
    "--sorties",
    "12",
    "--tanker",
    "Drover",
    "--against",
    "Heron, Return propellant cached",
  );
  const seen = JSON.parse(out) as {
    sorties: number;
    reference: string;
    ways: { name: string; first: { totalKg: number }; each: { totalKg: number }; campaign: { totalKg: number } }[];
  };
  expect(seen).toMatchObject({ sorties: 12, reference: "Heron, Return propellant cached" });
  for (const { first, each, campaign } of seen.ways)
    expect(campaign.totalKg).toBeCloseTo(first.totalKg + 11 * each.totalKg, 6);
});

test.each([
  [["--tanker", "Mule"], /no class of tanker "Mule". There are: (Packhorse, Drover|Drover, Packhorse)/],
  [["--sorties", "0"], /--sorties is a whole number from 1 to 10000/],
  [["--against", "nothing"], /There is no way "nothing"/],
])("%j is refused", async (options, words) => {
  const { err, status } = await run("ways", ledger, ...options);
  expect(status).toBe(2);
  expect(err).toMatch(words);
});
