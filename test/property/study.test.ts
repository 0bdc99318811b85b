/** A study over random plans: a point is the direct answer to the bit, and neither order nor company of points changes it. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { leadRun, runPart } from "../../app/risk/ask-risk.ts";
import type { Cell } from "../../app/study/columns.ts";
import type { InputAsked, StudyAsked } from "../../app/study/question.ts";
import { prepareStudy, type Study } from "../../app/study/study.ts";
import { randomPlan } from "./random-plan.ts";

const RUNS = Number(process.env["COLDSTOCK_RUNS"] ?? 80);
const plans = randomPlan({ days: 30, flights: 8, sorties: 6, constantLoss: true, betweenDepots: true });

const list = (values: readonly number[]) => ({ kind: "list" as const, list: [...new Set(values)] });
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const listOf = (min: number, max: number) => fc.array(number(min, max), { minLength: 1, maxLength: 4 }).map(list);

const input: fc.Arbitrary<InputAsked> = fc.oneof(
  listOf(0, 3).map((values) => ({ quantity: "loss factor" as const, values })),
  listOf(0, 3).map((values) => ({ quantity: "loss factor" as const, tank: "t0", values })),
  listOf(0, 5).map((values) => ({ quantity: "loss rate" as const, tank: "t0", values })),
  listOf(0, 60).map((values) => ({ quantity: "reserve" as const, tank: "t0", values })),
  listOf(1000, 9000).map((values) => ({ quantity: "tank size" as const, tank: "t0", values })),
  listOf(0, 1500).map((values) => ({
    quantity: "payload" as const,
    class: "Packhorse",
    propellant: "oxygen",
    values,
  })),
  listOf(0, 6).map((values) => ({ quantity: "transit" as const, class: "packhorse", values })),
  listOf(0, 9).map((values) => ({ quantity: "flight delay" as const, values })),
  listOf(0.25, 9).map((values) => ({ quantity: "cadence" as const, class: "packhorse", values })),
  fc.tuple(fc.constantFrom("first" as const, "last" as const), fc.nat(2)).map(([which, most]) => ({
    quantity: "flights left out" as const,
    class: "packhorse",
    which,
    values: list([0, most]),
  })),
  listOf(0.25, 12).map((values) => ({ quantity: "sortie cadence" as const, values })),
);

const study = (plan: PlanSnapshot, inputs: readonly InputAsked[], ask: StudyAsked["ask"]): Study | null => {
  try {
    return prepareStudy({
      plan,
      readings: [],
      asked: { name: "random", inputs: [...inputs], design: { kind: "grid" }, ask },
    });
  } catch (error) {
    // What this plan does not have, or what would do nothing in it, is refused in words.
    if (error instanceof PlanningError && error.code !== "defect") return null;
    throw error;
  }
};

/** The row put together from the ordinary forecast. */
const direct = (made: Study, values: readonly number[]): readonly Cell[] => {
  const { sorties } = forecast(made.planAt(values));
  const here = sorties.filter(({ isOut }) => !isOut);
  const margin = (row: (typeof here)[number]): number | null => {
    if (row.landerIsAway || row.lines.length === 0) return null;
    return Math.min(...row.lines.map(({ marginOverReserveKg }) => marginOverReserveKg));
  };
  const margins = here.map(margin).filter((kg) => kg !== null);
  const count = (status: string): number => here.filter((row) => row.status === status).length;
  const ids = made.columns.flatMap(({ sortieId }) => sortieId ?? []).filter((_, n) => n % 2 === 0);
  return [
    ...values,
    here.length,
    count("supplied"),
    count("thin"),
    count("short"),
    here.filter(({ outcome }) => outcome !== "stands down").length,
    margins.length === 0 ? null : Math.min(...margins),
    ...ids.flatMap((id): readonly Cell[] => {
      const row = here.find(({ sortieId }) => sortieId === id);
      return row === undefined ? [null, null] : [row.status, margin(row)];
    }),
  ];
};

const supply: StudyAsked["ask"] = [{ kind: "supply", each: true }];

test("a point is the forecast of the plan with that change, to the bit, and no sortie falls out of it", () => {
  let looked = 0;
  fc.assert(
    fc.property(plans, fc.array(input, { minLength: 1, maxLength: 3 }), (plan, inputs) => {
      const made = study(plan, inputs, supply);
      if (made === null) return;
      const sorties = forecast(plan).sorties.length;
      for (let point = 0; point < made.points; point += 1) {
        const values = made.valuesOf(point);
        const row = made.rowOf(values);
        expect(row).toEqual(direct(made, values));
        expect(row[values.length]).toBe(sorties);
        expect(row).toHaveLength(made.columns.length);
        looked += 1;
      }
    }),
    { numRuns: RUNS },
  );
  expect(looked).toBeGreaterThan(RUNS);
});

test("the rows are the same in any order, and in any company", () =>
  fc.assert(
    fc.property(plans, fc.array(input, { minLength: 1, maxLength: 3 }), fc.nat(), (plan, inputs, seed) => {
      const made = study(plan, inputs, supply);
      if (made === null) return;
      const numbers = Array.from({ length: made.points }, (_, point) => point);
      const shuffled = numbers.toSorted((a, b) => ((a * 7919 + seed) % 97) - ((b * 7919 + seed) % 97));
      const other = study(plan, inputs, supply) as Study;
      const rows = new Map(shuffled.map((point) => [point, other.rowOf(other.valuesOf(point))]));
      for (const point of numbers) expect(rows.get(point)).toEqual(made.rowOf(made.valuesOf(point)));
    }),
    { numRuns: RUNS / 2 },
  ));

test("the inputs may be named in any order: the plan of a point is the same", () =>
  fc.assert(
    fc.property(plans, fc.array(input, { minLength: 2, maxLength: 3 }), (plan, inputs) => {
      const made = study(plan, inputs, supply);
      const turned = study(plan, inputs.toReversed(), supply);
      expect(made === null).toBe(turned === null);
      if (made === null || turned === null) return;
      const values = made.valuesOf(made.points - 1);
      const width = values.length;
      expect(turned.rowOf(values.toReversed()).slice(width)).toEqual(made.rowOf(values).slice(width));
    }),
    { numRuns: RUNS / 2 },
  ));

test("the probabilities of a point are those of a run of the risk on the plan with that change", async () => {
  const inputs = fc.constantFrom<InputAsked>(
    { quantity: "reliability", class: "packhorse", values: list([0.7]) },
    { quantity: "slip", class: "packhorse", values: list([4]) },
    { quantity: "loss factor", values: list([1.7]) },
  );
  await fc.assert(
    fc.asyncProperty(plans, inputs, fc.nat(9), async (plan, one, seed) => {
      const made = study(plan, [one], [{ kind: "risk", seed, runs: 256 }]);
      if (made === null) return;
      const values = made.valuesOf(0);
      const base = { plan: made.planAt(values), readings: [], inputHash: "" };
      const asked = { seed, runs: 256, untilError: null, detail: "quick" as const };
      const quiet = { tell: () => undefined, shouldStop: () => false };
      const answer = await leadRun(base, asked, {
        ...quiet,
        threads: 1,
        runParts: async (parts, onDone) =>
          await Promise.resolve(
            parts.map((part, place) => {
              const done = runPart(base, asked, part, quiet);
              onDone?.(done, place);
              return done;
            }),
          ),
      });
      const row = made.rowOf(values);
      expect(row.slice(1, 6)).toEqual([
        answer.allFlyWhenPlanned.value,
        answer.allFlyWhenPlanned.standardError,
        answer.allFly.value,
        answer.allFly.standardError,
        answer.sortiesFlown.value,
      ]);
      const first = answer.sorties.find(({ sortieId }) => sortieId === made.columns[6]?.sortieId);
      expect(row.slice(6, 9)).toEqual([
        first?.fliesWhenPlanned.value,
        first?.delayDays?.p50.value ?? null,
        first?.delayDays?.p90.value ?? null,
      ]);
    }),
    { numRuns: Math.ceil(RUNS / 8) },
  );
});
