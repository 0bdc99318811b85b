/** What a plant's flights would do to the demonstration, beside the forecast of the plan that really has them. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Change } from "../../../app/entity/entities.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { plantEffect } from "../../../app/plant/plant-effect.ts";
import { flightsFromPlant, inflowFromPlant } from "../../../app/plant/plant-plan.ts";
import { glance } from "../../../app/supply/glance.ts";
import { loadDocument } from "../../../db/ledger.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-plant-effect-"));
const store = loadDocument(join(folder, "tarn.coldstock"), demoTarn());
afterAll(() => {
  store.close();
  rmSync(folder, { recursive: true, force: true });
});
const { plan } = planView(store, "baseline");
const source = plan.sources.find(({ id }) => id === "rim-plant")!;
const seenOf = (of: PlanSnapshot) => ({ plan: of, glance: glance(of, forecast(of)) });
const asChanges = (of: PlanSnapshot): readonly Change[] =>
  flightsFromPlant(of, { source, craftId: "packhorse-1", depotId: "tarn" }).map((value) => ({
    op: "put",
    kind: "flight",
    value,
  }));

test("the short sortie is cured by the plant's hydrogen, as it is in the plan that has the flights", () => {
  const changes = asChanges(plan);
  const effect = plantEffect(seenOf(plan), source.id, changes);
  expect(effect.flights.length).toBeGreaterThan(2);
  expect(effect.sorties).toContainEqual({ name: "Sortie 5", before: "short", after: "supplied" });
  expect(effect.already).toBe(0);
  const withThem = { ...plan, flights: [...plan.flights, ...effect.flights] };
  expect(glance(withThem, forecast(withThem)).sorties.some(({ status }) => status === "short")).toBe(false);
  for (const { loadedKg, takenKg } of effect.brought) {
    expect(takenKg).toBeGreaterThan(0);
    expect(takenKg).toBeLessThan(loadedKg);
  }
  const again = plantEffect(seenOf(withThem), source.id, asChanges(withThem));
  expect(again.already).toBe(effect.flights.length);
});

test("one hull that would have to fly again before it is back is counted", () => {
  const quick = { ...source, plant: { ...source.plant!, waterKgPerDay: 3200 } };
  const changes = flightsFromPlant(plan, { source: quick, craftId: "packhorse-1", depotId: "tarn" }).map(
    (value): Change => ({ op: "put", kind: "flight", value }),
  );
  // Ten times the water: a load in about 4.6 days, with 6 days of transit and 3 at the port.
  const effect = plantEffect(seenOf(plan), source.id, changes);
  expect(effect.overlapping).toBeGreaterThan(effect.flights.length / 2);
});

test("a line into a depot with one port, where tankers come too, is told as a new port conflict", () => {
  const onePort = { ...plan, depots: plan.depots.map((depot) => ({ ...depot, ports: 1 })) };
  const before = seenOf(onePort);
  const effect = plantEffect(before, source.id, inflowFromPlant(onePort, source, "tarn"));
  expect(effect.findings.some((sentence) => /Rim plant run .*need .*one port/.test(sentence))).toBe(true);
  expect(plantEffect(seenOf(plan), source.id, inflowFromPlant(plan, source, "tarn")).findings.join(" ")).not.toMatch(
    /Rim plant.*need .* ports? from/,
  );
});
