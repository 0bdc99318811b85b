/** Risk inputs: what is refused, and by which name; what becomes of them when a plan case is copied. */
import { describe, expect, test } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import { parseInput } from "../../../app/ground/parse-input.ts";
import { applyChanges } from "../../../app/entity/apply-changes.ts";
import { copyCase } from "../../../app/ledger/case-copy.ts";
import type { Change, Entity } from "../../../app/entity/entities.ts";
import { type Uncertainty, riskInput } from "../../../app/entity/risk-input.ts";
import { checkPlan } from "../../../app/ledger/rules/check-plan.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";

const plan = demoTarn().entities;
const [flight] = plan.flight;
const planCaseId = flight?.planCaseId ?? "";

const row = (uncertainty: unknown, over: object = {}) => ({
  id: "r",
  planCaseId,
  uncertainty,
  source: null,
  note: "",
  ...over,
});
const every = { kind: "every" };

const fieldOf = (act: () => unknown): string | null => {
  try {
    act();
  } catch (error) {
    if (error instanceof PlanningError) return error.field;
    throw error;
  }
  return "nothing was refused";
};

describe("refused by form, with the field", () => {
  const slip = (law: object) => row({ quantity: "flight slip", of: every, law });
  test.each([
    [
      "a probability above 1",
      row({ quantity: "flight loss", of: every, law: { kind: "probability", probability: 1.2 } }),
      "uncertainty.law.probability",
    ],
    [
      "a probability below 0",
      row({ quantity: "flight loss", of: every, law: { kind: "probability", probability: -0.1 } }),
      "uncertainty.law.probability",
    ],
    [
      "a negative spread",
      slip({ kind: "log-normal", noneShare: 0, meanDays: 20, sigma: -0.5 }),
      "uncertainty.law.sigma",
    ],
    ["an empty list", slip({ kind: "observed", days: [] }), "uncertainty.law.days"],
    [
      "an infinite mean",
      slip({ kind: "exponential", noneShare: 0, meanDays: Number.POSITIVE_INFINITY }),
      "uncertainty.law.meanDays",
    ],
    ["a mean of nothing", slip({ kind: "exponential", noneShare: 0, meanDays: 0 }), "uncertainty.law.meanDays"],
    [
      "a share of none above 1",
      slip({ kind: "exponential", noneShare: 1.5, meanDays: 9 }),
      "uncertainty.law.noneShare",
    ],
    ["a source without words", { ...slip({ kind: "none" }), source: "" }, "source"],
  ])("%s", (_what, value, field) => {
    expect(fieldOf(() => parseInput(riskInput, value))).toBe(field);
  });
});

describe("refused by the rules of the plan, with the field", () => {
  const put = (uncertainty: Uncertainty, id = "r"): Change => ({
    op: "put",
    kind: "riskInput",
    value: row(uncertainty, { id }) as Entity<"riskInput">,
  });
  const check = (changes: readonly Change[]) => checkPlan(applyChanges(plan, changes), changes, plan);
  const slip = (law: Extract<Uncertainty, { quantity: "flight slip" }>["law"]): Uncertainty => ({
    quantity: "flight slip",
    of: { kind: "every" },
    law,
  });
  test.each<[string, Uncertainty, string]>([
    [
      "more successes than trials",
      { quantity: "flight loss", of: { kind: "every" }, law: { kind: "trials", successes: 9, trials: 8 } },
      "law.successes",
    ],
    [
      "a triangle whose mode is below its least",
      slip({ kind: "triangular", noneShare: 0, lowDays: 9, modeDays: 3, highDays: 20 }),
      "law.modeDays",
    ],
    ["quantiles that fall", slip({ kind: "quantiles", noneShare: 0, days: [0, 9, 4] }), "law.days.2"],
    [
      "a flight that is not there",
      { quantity: "flight slip", of: { kind: "flight", flightId: "nowhere" }, law: { kind: "none" } },
      "of.flightId",
    ],
  ])("%s", (_what, uncertainty, field) => {
    expect(fieldOf(() => check([put(uncertainty)]))).toBe(`changes.0.value.uncertainty.${field}`);
  });

  test("the same quantity of the same thing twice", () => {
    expect(fieldOf(() => check([put(slip({ kind: "none" })), put(slip({ kind: "none" }), "other")]))).toBe(
      "changes.0.value.uncertainty.of",
    );
  });

  test("a flight that an input is stated of cannot be removed before the input", () => {
    const planned = plan.flight.find((candidate) => candidate.status === "planned");
    const stated = put({
      quantity: "flight slip",
      of: { kind: "flight", flightId: planned?.id ?? "" },
      law: { kind: "none" },
    });
    const before = applyChanges(
      plan,
      stated.op === "put"
        ? [{ ...stated, value: { ...stated.value, planCaseId: planned?.planCaseId ?? "" } } as Change]
        : [],
    );
    const removal: Change = { op: "remove", kind: "flight", id: planned?.id ?? "" };
    expect(() => checkPlan(applyChanges(before, [removal]), [removal], before)).toThrow(/refers to it/);
    const both: readonly Change[] = [{ op: "remove", kind: "riskInput", id: "r" }, removal];
    expect(() => checkPlan(applyChanges(before, both), both, before)).not.toThrow();
  });
});

test("in a copy of the plan case, what is stated of a flight is stated of the flight's copy", () => {
  const stated: Change = {
    op: "put",
    kind: "riskInput",
    value: row({
      quantity: "flight slip",
      of: { kind: "flight", flightId: flight?.id },
      law: { kind: "none" },
    }) as Entity<"riskInput">,
  };
  const before = applyChanges(plan, [stated]);
  let count = 0;
  const changes = copyCase(before, { fromId: planCaseId, newId: "copy", name: "Copy" }, () => `fresh-${(count += 1)}`);
  const after = applyChanges(before, changes);
  checkPlan(after, changes, before);
  const copied = after.riskInput.find(
    (candidate) => candidate.planCaseId === "copy" && candidate.uncertainty.of.kind === "flight",
  );
  const of = copied?.uncertainty.of;
  const target = after.flight.find((candidate) => of?.kind === "flight" && candidate.id === of.flightId);
  expect(target).toMatchObject({ planCaseId: "copy", key: flight?.key });
});
