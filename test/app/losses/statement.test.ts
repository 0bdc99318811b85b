/** Statement lines, months, predicted beside booked, and what waiting costs. */
import { describe, expect, test } from "vitest";
import type { TankMovement } from "../../../app/ledger/books.ts";
import { calendarMonthEdges, missionMonthEdges, monthLabel } from "../../../app/losses/months.ts";
import { compareLoss, modelledLoss } from "../../../app/losses/predicted.ts";
import { composeStatements, imbalance } from "../../../app/losses/statement.ts";
import type { StatementSums } from "../../../app/ledger/statement-sums.ts";
import { waitingCost } from "../../../app/losses/waiting-cost.ts";

const DAY = 86_400_000;
const at = (text: string): number => Date.parse(text);

const line = (change: Partial<StatementSums>): StatementSums => ({
  fromAt: 0,
  untilAt: 1,
  depotId: "tarn",
  propellantId: "hydrogen",
  openingGrams: 1000,
  receivedGrams: 500,
  drawnGrams: 300,
  boilOffGrams: 40,
  handoverLossGrams: 20,
  ventedGrams: 5,
  unaccountedGrams: -5,
  closingGrams: 1140,
  ...change,
});

describe("composition", () => {
  test("lines are put in order and summed; the total runs from the first opening to the last closing", () => {
    const second = line({ fromAt: 1, untilAt: 2, openingGrams: 1140, closingGrams: 1280 });
    const [statement] = composeStatements([second, line({})]);
    expect(statement!.lines.map((each) => each.fromAt)).toEqual([0, 1]);
    expect(statement!.total).toMatchObject({
      fromAt: 0,
      untilAt: 2,
      openingGrams: 1000,
      closingGrams: 1280,
      boilOffGrams: 80,
    });
    expect(imbalance(statement!.total)).toBe(0);
  });

  test("a gram astray, within a line or between two, is said", () => {
    expect(() => composeStatements([line({ closingGrams: 1141 })])).toThrow(/-1 g are left over/);
    const gap = line({ fromAt: 1, untilAt: 2, openingGrams: 1139, closingGrams: 1279 });
    expect(() => composeStatements([line({}), gap])).toThrow(/change between two months/);
  });
});

describe("months", () => {
  test("calendar months in UTC, leap February with them", () => {
    const edges = calendarMonthEdges(at("2031-12-15T10:00Z"), at("2032-03-01T00:00Z"));
    expect(edges.map((edge) => new Date(edge).toISOString().slice(0, 10))).toEqual([
      "2031-12-01",
      "2032-01-01",
      "2032-02-01",
      "2032-03-01",
    ]);
    expect(monthLabel(edges[2]!, null)).toBe("2032-02");
  });

  test("mission months of 30 days from their own start, before it too", () => {
    const start = at("2031-01-10T00:00Z");
    expect(missionMonthEdges(start, start + 31 * DAY, start + 61 * DAY)).toEqual([
      start + 30 * DAY,
      start + 60 * DAY,
      start + 90 * DAY,
    ]);
    expect(missionMonthEdges(start, start - DAY, start + DAY)[0]).toBe(start - 30 * DAY);
    expect(monthLabel(start + 30 * DAY, start)).toBe("mission month 2");
  });

  test("a span that ends before it begins, or of a century, is refused", () => {
    expect(() => calendarMonthEdges(2, 1)).toThrow(/must end after/);
    expect(() => calendarMonthEdges(0, at("2100-01-01T00:00Z"))).toThrow(/600 months at most/);
    expect(() => missionMonthEdges(0, 0, 1e13)).toThrow(/600 months at most/);
  });
});

const move = (day: number, kind: TankMovement["kind"], massKg: number, bookKg: number): TankMovement => ({
  tankId: "t",
  at: day * DAY,
  kind,
  massKg,
  bookKg,
  statedKg: kind === "opening" || kind === "reading" ? bookKg : null,
  sinceAt: null,
});
const steady = (cKgPerDay: number) => ({
  periods: [
    {
      id: "p",
      tankId: "t",
      planCaseId: null,
      fromAt: null,
      untilAt: null,
      basis: { kind: "stated" as const, kPerDay: 0, cKgPerDay },
      reason: "r",
      note: "",
    },
  ],
  fallback: { kPerDay: 0, cKgPerDay: 0 },
});
const gauge = (day: number, sigmaKg: number) => ({
  id: `r${day}`,
  tankId: "t",
  at: day * DAY,
  massKg: 0,
  sigmaKg,
  entryId: "e",
  isWithdrawn: false,
  note: "",
});

describe("predicted beside booked", () => {
  const books = [
    move(0, "opening", 10_000, 10_000),
    move(5, "arrival", 4000, 14_000),
    move(10, "reading", -130, 13_870),
    move(15, "loading", -6000, 7870),
    move(20, "reading", -70, 7800),
    move(40, "arrival", 100, 7900),
  ];

  test("covers from the stated level before the period to the last one in it", () => {
    const row = compareLoss("t", books, steady(10), [gauge(10, 30), gauge(20, 40)], 12 * DAY, 30 * DAY)!;
    expect([row.coversFromAt / DAY, row.coversUntilAt / DAY]).toEqual([10, 20]);
    expect(row.bookedKg).toBe(70);
    expect(row.predictedKg).toBeCloseTo(100, 9);
    expect(row.differenceKg).toBeCloseTo(-30, 9);
    expect(row.sigmaKg).toBe(50);
    expect(row.differenceInSigma).toBeCloseTo(-0.6, 9);
  });

  test("without a gauge at one end there is no sigma; without two stated levels no row", () => {
    expect(compareLoss("t", books, steady(10), [gauge(20, 40)], 12 * DAY, 30 * DAY)!.sigmaKg).toBeNull();
    expect(compareLoss("t", books, steady(10), [], 25 * DAY, 30 * DAY)).toBeNull();
    expect(compareLoss("t", [], steady(10), [], 0, DAY)).toBeNull();
  });

  test("the model stops at an empty tank and takes a delivery after it", () => {
    const loss = modelledLoss(50, [move(10, "arrival", 30, 0)], steady(10), 0, 20 * DAY);
    expect(loss).toBeCloseTo(80, 9);
  });
});

describe("what waiting costs", () => {
  test("30 days at 0.127 %/day cost 3.7407 % (F, compound), in flights as a share of one delivery", () => {
    const cost = waitingCost(40_000, { kPerDay: -Math.log1p(-0.00127), cKgPerDay: 0 }, 30, 6000);
    expect(cost.lostKg).toBeCloseTo(40_000 * 0.037407, 0);
    expect(cost.flights).toBeCloseTo(1496.28 / 6000, 4);
    expect(cost.levelAfterKg + cost.lostKg).toBeCloseTo(40_000, 9);
  });

  test("never costs more than the tank holds; where nothing is delivered, no flights", () => {
    const cost = waitingCost(50, { kPerDay: 0, cKgPerDay: 12 }, 10, 25);
    expect(cost.lostKg).toBeCloseTo(50, 9);
    expect(cost.flights).toBeCloseTo(2, 9);
    expect(waitingCost(1000, { kPerDay: 0, cKgPerDay: 2 }, 10, null)).toMatchObject({ lostKg: 20, flights: null });
    expect(() => waitingCost(1, { kPerDay: 0, cKgPerDay: 0 }, -1, null)).toThrow(/below 0 days/);
  });
});
