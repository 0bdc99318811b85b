/** A sortie whose dates are not those of its profile: that it is found, and what it is said to cost. */
import { expect, test } from "vitest";
import { heronDirect, heronLander, heronMission } from "../../../app/demo/heron.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { conditionOf } from "../../../app/supply/weight.ts";
import { findingSentence } from "../../../app/supply/finding-sentence.ts";
import { timeAwayFindings } from "../../../app/supply/time-away.ts";
import { day, smallPlan, sortie } from "../forecast/small-plan.ts";
import { densities } from "../sortie/example.ts";

const DAYS = heronDirect.steps.reduce((sum, step) => (step.kind === "stay" ? sum + step.days : sum), 0);

/** One sortie by the profile, away for so many days. */
const planOf = (daysAway: number): PlanSnapshot => {
  const plan = smallPlan({
    sorties: [
      sortie("Sortie 1", 10, 0, {
        returnAt: day(10 + daysAway),
        demand: { kind: "profile", profileId: heronDirect.id, ...heronMission },
      }),
    ],
  });
  return {
    ...plan,
    propellants: densities.map(({ id, densityKgPerM3 }, position) => ({
      id,
      name: id,
      symbol: id.slice(0, 3),
      fluid: null,
      densityKgPerM3,
      position,
    })),
    craftClasses: plan.craftClasses.map((row) =>
      row.role === "lander" ? { ...row, id: heronDirect.classId, lander: heronLander } : row,
    ),
    craft: plan.craft.map((row) => (row.id === "heron-1" ? { ...row, classId: heronDirect.classId } : row)),
    profiles: [heronDirect],
  };
};

const found = (daysAway: number) => {
  const plan = planOf(daysAway);
  return { plan, findings: timeAwayFindings(plan, forecast(plan)) };
};

test("dates that agree with the profile are no finding", () => expect(found(DAYS).findings).toEqual([]));

test("ten days more are found with what they cost; twice as many cost at least twice as much", () => {
  const kilograms = (daysAway: number): number => {
    const [finding] = found(daysAway).findings;
    if (finding?.kind !== "time away differs") throw new Error("no finding");
    expect(finding).toMatchObject({ statedDays: daysAway, profileDays: expect.closeTo(DAYS, 1) as number });
    for (const { massKg } of finding.extra!) expect(massKg).toBeGreaterThan(0);
    return finding.extra!.reduce((sum, { massKg }) => sum + massKg, 0);
  };
  const ten = kilograms(DAYS + 10);
  // People breathe 0.895 kg of oxygen a day (NASA/TP-2015-218570/REV2, table 3-31, as quoted): no less than that is gone.
  expect(ten).toBeGreaterThan(10 * 0.895 * heronMission.crew);
  expect(kilograms(DAYS + 20)).toBeGreaterThan(2 * ten * 0.999);
});

test("it is said in words, and conditions the verdict", () => {
  const { plan, findings } = found(DAYS + 10);
  expect(findingSentence(plan, findings[0]!)).toMatch(
    /^Sortie 1 is away for \d+\.0 days, its profile for \d+\.0; with that time on its longest stay the load would change by \+/,
  );
  expect(conditionOf(plan, findings[0]!)).toBe("the dates of Sortie 1 are right and its profile is made to agree");
});
