/** Cures of a short sortie: cases worked by hand, and every claim tried against a plain forecast of the changed plan. */
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { CureAnswer, CureKind } from "../../../app/supply/cures/cure.ts";
import { findCures } from "../../../app/supply/cures/find-cures.ts";
import { carries, day, flight, type SmallPlan, smallPlan, sortie } from "../forecast/small-plan.ts";
import { runs } from "../../suite/runs.ts";

const still = { tell: () => undefined, shouldStop: () => false };
const curesOf = (plan: PlanSnapshot, sortieId: string): CureAnswer => findCures(plan, sortieId, still);
const ofKind = (answer: CureAnswer, kind: CureKind) => answer.cures.filter((cure) => cure.kind === kind);

/** 10 t in the tank; a sortie of 12 t at day 30 is short by 2 t; 5 t come on day 50; a sortie of 6 t at day 80. */
const plain: SmallPlan = {
  opening: { a: 10_000 },
  tanker: [carries({ loadKg: 4000 })],
  flights: [flight("f", 45, 50, 5000)],
  sorties: [sortie("s", 30, 12_000), sortie("t", 80, 6000)],
};

describe("a sortie that is short by 2 t until 5 t come on day 50", () => {
  const answer = curesOf(smallPlan(plain), "s");

  test("can move to day 50; then 3 t are left and the later one, of 6 t, stands down", () => {
    const [move] = ofKind(answer, "move");
    expect(move).toMatchObject({ isCured: true, betterIds: [], worseIds: ["t"] });
    expect(move?.outlook.sorties.find(({ sortieId }) => sortieId === "s")?.loadedAt).toBe(day(50));
  });

  test("can wait until then, if short sorties wait that long", () => {
    const [wait] = ofKind(answer, "wait");
    expect(wait).toMatchObject({ isCured: true });
    expect(wait?.outlook.sorties.find(({ sortieId }) => sortieId === "s")).toMatchObject({
      outcome: "waits and flies",
      loadedAt: day(50),
    });
  });

  test("flies when planned with one more flight of 4 t, and the later one still does: 10 + 4 − 12 + 5 = 7 t", () => {
    const [more] = ofKind(answer, "one more flight");
    expect(more).toMatchObject({ isCured: true, worseIds: [], newBreaks: [] });
    expect(more?.outlook.flights).toBe(answer.now.flights + 1);
    expect(more?.outlook.deliveredKg).toBeCloseTo(answer.now.deliveredKg + 4000, 6);
    expect(more?.outlook.sorties.every(({ outcome }) => outcome === "flies")).toBe(true);
    // No harm done and nothing lost: it stands first.
    expect(answer.cures[0]?.kind).toBe("one more flight");
  });

  test("changes places with the later one: 6 t of 10 at day 30, then 4 + 5 = 9 t of 12: it stays short", () => {
    const [swap] = ofKind(answer, "other order");
    expect(swap).toMatchObject({ isCured: false });
    expect(answer.cures.at(-1)?.isCured).toBe(false);
  });
});

test("a sortie that flies has no cures, and one that is not there is said not to be", () => {
  const plan = smallPlan({ ...plain, opening: { a: 50_000 } });
  expect(curesOf(plan, "s").cures).toEqual([]);
  expect(() => curesOf(plan, "nobody")).toThrow("not ahead");
});

test("the plan itself is left as it was", () => {
  const plan = smallPlan(plain);
  const before = JSON.stringify(plan);
  curesOf(plan, "s");
  expect(JSON.stringify(plan)).toBe(before);
});

/** Small plans of two flights and three sorties at whole days. */
const anyPlan = fc
  .record({
    opening: fc.integer({ min: 0, max: 30 }),
    flights: fc.array(fc.record({ day: fc.integer({ min: 6, max: 300 }), tonnes: fc.integer({ min: 1, max: 12 }) }), {
      maxLength: 3,
    }),
    sorties: fc.array(fc.record({ day: fc.integer({ min: 1, max: 320 }), tonnes: fc.integer({ min: 1, max: 20 }) }), {
      minLength: 1,
      maxLength: 4,
    }),
    policy: fc.constantFrom("stand down" as const, "wait" as const),
  })
  .map(({ opening, flights, sorties, policy }) =>
    smallPlan({
      opening: { a: opening * 1000 },
      tanker: [carries({ loadKg: 4000 })],
      flights: flights.map((row, n) => flight(`f${n}`, row.day - 5, row.day, row.tonnes * 1000)),
      sorties: sorties.map((row, n) => sortie(`s${n}`, row.day, row.tonnes * 1000)),
      landers: ["heron-1"],
      shortPolicy: policy,
    }),
  );

test("what is said of every cure is what a plain forecast of the changed plan says", () => {
  fc.assert(
    fc.property(anyPlan, (plan) => {
      const seen = forecast(plan);
      for (const { sortieId, status } of seen.sorties) {
        if (status !== "short") continue;
        for (const cure of curesOf(plan, sortieId).cures) {
          const then = forecast(applyChanges(plan, cure.changes));
          const own = then.sorties.find((row) => row.sortieId === sortieId);
          expect(cure.isCured).toBe(own !== undefined && own.loadedAt !== null);
          for (const id of cure.worseIds) {
            const was = seen.sorties.find((row) => row.sortieId === id);
            const is = then.sorties.find((row) => row.sortieId === id);
            const lateness = (row: typeof was) => (row?.loadedAt ?? Infinity) - (row?.plannedAt ?? 0);
            expect(lateness(is) > lateness(was) || is?.status !== was?.status).toBe(true);
          }
        }
      }
    }),
    { numRuns: runs(40) },
  );
});

test("moved to any earlier day the sortie stays short: the date offered is the first", () => {
  fc.assert(
    fc.property(anyPlan, (plan) => {
      for (const row of plan.sorties) {
        const answer = curesOf(plan, row.id);
        const now = answer.now.sorties.find(({ sortieId }) => sortieId === row.id);
        if (now?.status !== "short" || answer.cures.length === 0) continue;
        const [move] = ofKind(answer, "move");
        const change = move?.changes[0];
        const until = change?.op === "put" && change.kind === "sortie" ? change.value.loadAt : day(360);
        for (let at = row.loadAt + day(1) - day(0); at < until; at += day(7) - day(0)) {
          const moved = { ...row, loadAt: at, returnAt: at + row.returnAt - row.loadAt };
          const tried = forecast(applyChanges(plan, [{ op: "put", kind: "sortie", value: moved }]));
          expect(tried.sorties.find(({ sortieId }) => sortieId === row.id)?.status).toBe("short");
        }
      }
    }),
    { numRuns: runs(20) },
  );
});
