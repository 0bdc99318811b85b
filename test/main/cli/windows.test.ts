/** `windows` lists a depot's departure windows and takes them from an orbit ephemeris, with file name and digest. */
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { HEADER, segmentText } from "../../app/ephemeris/two-body.ts";
import { run } from "./terminal.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-windows-"));
const ledger = join(folder, "tarn.coldstock");
const START = Date.UTC(2031, 0, 1);
// As long as the demonstration's halo orbit: 6.56 days, so some ten revolutions.
const orbit = { semiMajorKm: 34_230, e: 0.86, periapsisMs: START + 2.5 * 86_400_000 };
const text = HEADER + segmentText(orbit, { from: START, until: START + 65 * 86_400_000, stepMs: 3_600_000 });
const oem = join(folder, "tarn.oem");
beforeAll(() => {
  loadDocument(ledger, demoTarn()).close();
  writeFileSync(oem, text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("the windows by period, then those of an ephemeris, kept with name and digest", async () => {
  expect((await run("windows", ledger)).out).toContain("a window every 6.5624 days");
  const preview = await run("windows", ledger, oem, "--preview");
  expect(preview.out).toContain("nothing was changed");
  expect((await run("windows", ledger)).out).toContain("a window every 6.5624 days");
  expect((await run("windows", ledger, oem)).status).toBe(0);
  const { out } = await run("windows", ledger, "--json", "--from", "2031-01-01", "--until", "2031-12-31");
  const seen = JSON.parse(out) as { at: number[]; source: { fileName: string; sha256: string; found: number } };
  expect(seen.source).toMatchObject({ fileName: "tarn.oem", sha256: createHash("sha256").update(text).digest("hex") });
  expect(seen.at.length).toBe(seen.source.found);
  // The first periapsis, TDB → UTC: 69.184 s earlier.
  expect(Math.abs((seen.at[0] ?? 0) - (orbit.periapsisMs - 69_184))).toBeLessThan(1000);
  // The ledger is sound, and the check goes by the new windows.
  expect((await run("verify", ledger)).status).toBe(0);
  expect((await run("check", ledger)).status).toBeLessThan(2);
});

test("an ephemeris about another body, an unknown depot and a wrong date are bad use, by name", async () => {
  const earth = join(folder, "earth.oem");
  writeFileSync(earth, text.replace("CENTER_NAME = MOON", "CENTER_NAME = EARTH"));
  const refused = await run("windows", ledger, earth);
  expect(refused.status).toBe(2);
  expect(refused.err).toMatch(/Line 9: CENTER_NAME is EARTH/u);
  expect((await run("windows", ledger, oem, "--depot", "Nowhere")).err).toContain('no depot "Nowhere"');
  expect((await run("windows", ledger, oem, "--from", "soon")).err).toContain("is not a date");
});
