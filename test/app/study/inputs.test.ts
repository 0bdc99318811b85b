/** What each input of a study does to a plan, worked out by hand; and what is refused, in words. */
import { describe, expect, test } from "vitest";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import { prepareStudy } from "../../../app/study/study.ts";
import { carries, flight, lossPeriod, smallPlan, sortie, tank } from "../forecast/small-plan.ts";

/** 20 t at the start, a flight of 10 t on day 10, one on day 30; a sortie takes 15 t on day 20, one on day 40. */
const plan: PlanSnapshot = smallPlan({
  tanks: [tank("a", { name: "Tarn oxygen", maximumFillKg: 40_000, heelKg: 500, reserveKg: 1000 })],
  opening: { a: 20_000 },
  tanker: [carries({ capacityKg: 12_000 })],
  flights: [flight("f1", 5, 10, 10_000), flight("f2", 25, 30, 10_000)],
  sorties: [sortie("s1", 20, 15_000, { name: "One" }), sortie("s2", 40, 15_000, { name: "Two" })],
  lossPeriods: [lossPeriod("base", "a", 0, 100)],
  horizonDay: 60,
});

const rows = (inputs: readonly unknown[], ask: readonly unknown[] = [{ kind: "supply" }], of = plan) => {
  const asked = parseStudy({ name: "by hand", inputs, design: { kind: "grid" }, ask });
  const study = prepareStudy({ plan: of, readings: [], asked });
  return Array.from({ length: study.points }, (_, point) => study.rowOf(study.valuesOf(point)));
};

/** Margin of each sortie over the reserve of 1000 kg (500 above the heel, which cannot be drawn). */
const margins = (inputs: readonly unknown[]) =>
  rows(inputs).map((row) =>
    [row.at(-3), row.at(-1)].map((kg) => (kg === null ? null : Math.round(Number(kg) * 1000) / 1000)),
  );

const list = (...values: number[]) => ({ kind: "list", list: values });

describe("what an input does", () => {
  // As it stands: 20 000 + 10 000 − 20 × 100 − 15 000 − 1000; then − 15 000 + 10 000 − 20 × 100.
  test("a loss factor scales what boils off", () => {
    expect(margins([{ quantity: "loss factor", values: list(1, 0, 2) }])).toEqual([
      [12_000, 5000],
      [14_000, 9000],
      [10_000, 1000],
    ]);
  });

  test("a loss rate is what the full tank loses: 100 kg/day of 40 t are 0.25 %/day", () => {
    expect(margins([{ quantity: "loss rate", tank: "tarn oxygen", values: list(0.25, 0.5) }])).toEqual([
      [12_000, 5000],
      [10_000, 1000],
    ]);
  });

  test("a payload is loaded by every flight still to leave, a reserve is kept, a size limits", () => {
    expect(margins([{ quantity: "payload", class: "Packhorse", propellant: "Oxygen", values: list(12_000) }])).toEqual([
      [14_000, 9000],
    ]);
    expect(margins([{ quantity: "reserve", tank: "a", values: list(4000) }])).toEqual([[9000, 2000]]);
    // 25 t hold no more than 25 t when the first flight has come on day 10: 25 000 − 10 × 100 − 16 000.
    expect(margins([{ quantity: "tank size", tank: "a", values: list(25_000) }])).toEqual([[8000, 1000]]);
  });

  test("a longer transit arrives later, a delay moves all, and what comes after the loading is not there", () => {
    // Arrives on day 5 + 16 = 21 and 41: after both loadings.
    expect(margins([{ quantity: "transit", class: "Packhorse", values: list(16) }])).toEqual([[2000, -5000]]);
    expect(margins([{ quantity: "flight delay", values: list(11) }])).toEqual([[2000, -5000]]);
  });

  test("a cadence keeps the first flight and lets the others follow; sorties likewise", () => {
    // The second leaves on day 5 + 40 and arrives on day 50, after the second loading.
    expect(margins([{ quantity: "cadence", class: "Packhorse", values: list(40) }])).toEqual([[12_000, -5000]]);
    // The second sortie loads on day 30, when the lander is back and the second flight has come: 13 000 + 10 000 − 10 × 100
    // − 16 000; on day 25 its lander is away, and there is no margin to speak of.
    expect(margins([{ quantity: "sortie cadence", values: list(10, 5) }])).toEqual([
      [12_000, 6000],
      [12_000, null],
    ]);
  });

  test("flights left out are not flown: the first, or the last", () => {
    expect(margins([{ quantity: "flights left out", class: "Packhorse", which: "first", values: list(0, 1) }])).toEqual(
      [
        [12_000, 5000],
        [2000, -5000],
      ],
    );
    expect(margins([{ quantity: "flights left out", class: "Packhorse", which: "last", values: list(1) }])).toEqual([
      [12_000, -5000],
    ]);
  });

  test("a sortie that is moved beyond the end takes the end along: it is still counted", () => {
    const [row] = rows([{ quantity: "sortie cadence", values: list(80) }]);
    // Two sorties; the second on day 100: 13 000 + 10 000 − 80 × 100 − 16 000.
    expect(row?.[1]).toBe(2);
    expect(row?.at(-1)).toBeCloseTo(-1000, 6);
  });
});

describe("what is refused, in words", () => {
  const say = (inputs: readonly unknown[], ask?: readonly unknown[], of?: PlanSnapshot): string => {
    try {
      rows(inputs, ask, of);
    } catch (error) {
      return (error as Error).message;
    }
    return "nothing was refused";
  };

  test("a quantity that cannot be varied, by its name", () => {
    expect(say([{ quantity: "flights added", values: list(1) }])).toMatch(
      /cannot vary “flights added”.*It can vary: loss factor/,
    );
  });

  test("what the plan does not have, with what it has", () => {
    expect(say([{ quantity: "reserve", tank: "Hydrogen", values: list(1) }])).toBe(
      "The plan has no depot tank Hydrogen. It has: Tarn oxygen.",
    );
    expect(say([{ quantity: "cooler outage", tank: "a", from: "2031-01-05", values: list(1) }])).toMatch(
      /No heat balance with coolers/,
    );
  });

  test("what would do nothing", () => {
    const still = { ...plan, lossPeriods: [] };
    expect(say([{ quantity: "loss factor", values: list(1, 2) }], undefined, still)).toMatch(/changes nothing/);
    expect(say([{ quantity: "loss rate", tank: "a", values: list(1, 2) }], undefined, still)).toMatch(/loses nothing/);
    expect(say([{ quantity: "cargo", values: list(1, 2) }])).toMatch(/changes nothing/);
    expect(say([{ quantity: "reliability", class: "Packhorse", values: list(0.9) }])).toMatch(/only a run of the risk/);
  });

  test("an empty range, a value twice, and one that cannot be", () => {
    const range = (from: number, to: number, count = 3) => ({ kind: "range", from, to, count });
    expect(say([{ quantity: "loss factor", values: range(2, 1) }])).toMatch(/is empty: it goes from 2 to 1/);
    expect(say([{ quantity: "loss factor", values: list(1, 1) }])).toMatch(/a value twice/);
    expect(say([{ quantity: "payload", class: "Packhorse", propellant: "lox", values: list(12_001) }])).toMatch(
      /cannot be 12001 kg.*at most 12000 kg/,
    );
    expect(say([{ quantity: "tank size", tank: "a", values: list(19_000) }])).toMatch(/hold what is in it today/);
    expect(say([{ quantity: "flights left out", class: "Packhorse", which: "first", values: range(0, 2, 4) }])).toMatch(
      /whole number/,
    );
  });

  test("two inputs that change the same thing", () => {
    expect(
      say([
        { quantity: "loss factor", values: list(1) },
        { quantity: "loss rate", tank: "a", values: list(1) },
      ]),
    ).toMatch(/change the same thing/);
  });
});
