/** The supply check tells of engines that are due and of sheets that fail, at the dates of the forecast. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { findingSentence } from "../../../app/supply/finding-sentence.ts";
import { glance } from "../../../app/supply/glance.ts";
import { loadDocument } from "../../../db/ledger.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-engines-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const store = loadDocument(join(folder, "tarn.coldstock"), demoTarn());
const planOf = (id: string): PlanSnapshot => planView(store, id).plan;
const sentences = (plan: PlanSnapshot): readonly string[] =>
  glance(plan, forecast(plan))
    .findings.filter(({ kind }) => kind === "engine change due" || kind === "sortie check")
    .map((finding) => findingSentence(plan, finding));

// Heron is rated for 30 ignitions and lights its engines six times a sortie.
test("with all six sorties flown the engines are due before the sixth; with one stood down they last", () => {
  const plan = planOf("extra-packhorse");
  expect(sentences(plan)).toEqual([
    expect.stringMatching(
      /^Heron 1 needs new engines before Sortie 6 on 2032-\d\d-\d\d, .* ignitions over the rating\.$/,
    ),
  ]);
  expect(sentences(planOf("baseline"))).toEqual([]);
});

test("a change of engines before the sixth settles it", () => {
  const plan = planOf("extra-packhorse");
  const changed = plan.craft.map((craft) =>
    craft.id === "heron-1" ? { ...craft, engineChanges: [{ at: Date.UTC(2032, 3, 1), note: "" }] } : craft,
  );
  expect(sentences({ ...plan, craft: changed })).toEqual([]);
});

test("a lander that cannot hover is a finding of every sortie ahead", () => {
  const plan = planOf("baseline");
  const fixed = plan.craftClasses.map((row) =>
    row.lander === null
      ? row
      : { ...row, lander: { ...row.lander, engines: { ...row.lander.engines, minimumThrottle: 1 } } },
  );
  const found = sentences({ ...plan, craftClasses: fixed });
  expect(found).toHaveLength(5);
  expect(found[0]).toMatch(/^Sortie 2: Hovering at touchdown .* exactly timed cut-off\.$/);
});
