/** `sortie` prints the sheet of a ledger's sortie or of a profile file, and says by its exit status whether all checks hold. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { heronCached, heronLander, heronMission } from "../../../app/demo/heron.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { tarnPropellants } from "../../../app/demo/tarn-hardware.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-sortie-"));
const ledger = join(folder, "tarn.coldstock");
beforeAll(() => loadDocument(ledger, demoTarn()).close());
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const file = (name: string, content: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
  return path;
};
const { id: _id, classId: _class, note: _note, ...bare } = heronCached;
const good = {
  propellants: tarnPropellants.map(({ id, name, densityKgPerM3 }) => ({ id, name, densityKgPerM3 })),
  lander: heronLander,
  profile: bare,
  mission: heronMission,
};

test("the sheet of a ledger's sortie as text and as JSON", async () => {
  const text = await run("sortie", ledger);
  expect(text.status).toBe(0);
  expect(text.out).toContain("rendezvous and docking");
  expect(text.out).toMatch(/Hydrogen, tank chilldown: 119\.0\skg boil at each top-up .* Dulong and Petit/);
  const { out } = await run("sortie", ledger, "--json");
  const sheet = JSON.parse(out) as { loadKg: number; legs: unknown[]; findings: unknown[] };
  expect(sheet.loadKg).toBeGreaterThan(40_000);
  expect(sheet.loadKg).toBeLessThan(50_000);
  expect(sheet.findings).toEqual([]);
});

test("the sheet of a profile file; a check that fails gives status 1", async () => {
  expect((await run("sortie", file("good.json", good))).status).toBe(0);
  const fixed = { ...good, lander: { ...heronLander, engines: { ...heronLander.engines, minimumThrottle: 1 } } };
  const answer = await run("sortie", file("fixed.json", fixed));
  expect(answer.status).toBe(1);
  expect(answer.out).toContain("exactly timed cut-off");
});

test("bad files, bad figures and unknown sorties are bad use, by name", async () => {
  const zero = { ...good, lander: { ...heronLander, engines: { ...heronLander.engines, ispFullS: 0 } } };
  const cases: [string[], RegExp][] = [
    [[file("zero.json", zero)], /lander\.engines\.ispFullS: an engine's Isp must be above 0 s/],
    [[file("text.json", "no")], /not JSON/],
    [[join(folder, "missing.json")], /missing\.json|no such file/i],
    [[ledger, "--sortie", "Nowhere"], /no sortie "Nowhere"/],
  ];
  for (const [words, message] of cases) {
    const answer = await run("sortie", ...words);
    expect(answer.status).toBe(2);
    expect(answer.err).toMatch(message);
  }
});
