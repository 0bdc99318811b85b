/** Small plans whose numbers are worked by hand. */
import { describe, expect, it } from "vitest";
import { imbalanceKg } from "../../../app/forecast/balance.ts";
import { levelAt, levelBefore } from "../../../app/forecast/curve.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { type SmallPlan, carries, day, depot, flight, lossPeriod, smallPlan, sortie, tank } from "./small-plan.ts";

const of = (wanted: SmallPlan) => forecast(smallPlan(wanted));
const level = (result: ReturnType<typeof forecast>, tankId: string, days: number): number =>
  levelAt(result.levels.find((row) => row.tankId === tankId)?.segments ?? [], day(days));
const before = (result: ReturnType<typeof forecast>, tankId: string, days: number): number =>
  levelBefore(result.levels.find((row) => row.tankId === tankId)?.segments ?? [], day(days));

describe("a delivery", () => {
  it("arrives less what is lost in flight, residual, chilldown and transfer loss", () => {
    const result = of({
      tanker: [carries({ cKgPerDay: 10, residualKg: 50, chilldownKg: 30, lossFraction: 0.02 })],
      flights: [flight("f", 5, 10, 10_000)],
    });
    // 10,000 − 5·10 = 9,950; − 50 = 9,900 offered; − 30 = 9,870; 2 % of it lost: 9,672.6 taken
    const line = result.flights[0]?.lines[0];
    expect(line).toMatchObject({
      loadedKg: 10_000,
      inFlightLossKg: 50,
      residualKg: 50,
      offeredKg: 9900,
      chilldownKg: 30,
    });
    expect(line?.handoverLossKg).toBeCloseTo(197.4, 9);
    expect(line?.taken).toEqual([{ tankId: "a", massKg: expect.closeTo(9672.6, 9) as number }]);
    expect(before(result, "a", 10)).toBe(0);
    expect(level(result, "a", 10)).toBeCloseTo(9672.6, 9);
  });
  it("that finds too little room leaves the rest aboard, or vents it", () => {
    const wanted = { opening: { a: 95_000 }, tanker: [carries({ lossFraction: 0.5 })] };
    const kept = of({ ...wanted, flights: [flight("f", 5, 10, 20_000)] });
    // room 5,000 takes 10,000 of the tanker, half of which is lost on the way
    expect(kept.flights[0]?.lines[0]).toMatchObject({ keptAboardKg: 10_000, ventedKg: 0, handoverLossKg: 5000 });
    const vented = of({ ...wanted, flights: [flight("f", 5, 10, 20_000, { overflow: "vent" })] });
    expect(vented.flights[0]?.lines[0]).toMatchObject({ keptAboardKg: 0, ventedKg: 10_000 });
  });
  it("into a full tank cools nothing down and takes all home", () => {
    const result = of({
      opening: { a: 100_000 },
      tanker: [carries({ chilldownKg: 30 })],
      flights: [flight("f", 5, 10, 20_000)],
    });
    expect(result.flights[0]?.lines[0]).toMatchObject({ chilldownKg: 0, keptAboardKg: 20_000, taken: [] });
  });
  it("fills the tank that loses least first, and a ranked one before it", () => {
    const wanted: SmallPlan = {
      tanks: [tank("a", { maximumFillKg: 10_000 }), tank("b", { maximumFillKg: 10_000 })],
      lossPeriods: [lossPeriod("p", "a", 0.01, 0), lossPeriod("q", "b", 0.001, 0)],
      flights: [flight("f", 0, 0.5, 12_000)],
    };
    const taken = (result: ReturnType<typeof forecast>) =>
      result.flights[0]?.lines[0]?.taken.map((part) => [part.tankId, part.massKg]);
    expect(taken(of(wanted))).toEqual([
      ["b", 10_000],
      ["a", 2000],
    ]);
    const ranked = wanted.tanks?.map((row) => (row.id === "a" ? { ...row, rank: 1 } : row)) ?? [];
    expect(taken(of({ ...wanted, tanks: ranked }))).toEqual([
      ["a", 10_000],
      ["b", 2000],
    ]);
  });
  it("departed already arrives; arrived, lost and cancelled ones change nothing", () => {
    const result = of({
      flights: [
        flight("f", -3, 2, 1000, { status: "departed" }),
        flight("g", -3, 2, 1000, { status: "arrived" }),
        flight("h", 1, 2, 1000, { status: "lost" }),
        flight("i", 1, 2, 1000, { status: "cancelled" }),
      ],
    });
    expect(level(result, "a", 3)).toBe(1000);
  });
  it("that should have gone is taken to have gone as planned, and is said to be overdue", () => {
    const result = of({ flights: [flight("f", -3, 2, 1000)] });
    expect(result.flights[0]).toMatchObject({ departAt: day(-3), arriveAt: day(2), isOverdue: true });
  });
});

describe("a metered handover", () => {
  const metered = [carries({ rateKgPerDay: 10_000 })];
  it("runs at its rate while the tank loses", () => {
    const result = of({
      tanker: metered,
      lossPeriods: [lossPeriod("p", "a", 0, 1000)],
      opening: { a: 5000 },
      flights: [flight("f", 0, 1, 10_000, { berthDays: 3 })],
    });
    expect(level(result, "a", 1)).toBeCloseTo(4000, 8);
    expect(level(result, "a", 1.5)).toBeCloseTo(8500, 8);
    expect(level(result, "a", 2)).toBeCloseTo(13_000, 6);
    expect(level(result, "a", 3)).toBeCloseTo(12_000, 6);
    expect(result.flights[0]?.lines[0]?.untilAt).toBeCloseTo(day(2), 2);
  });
  it("is cut exactly where the tank gets full, and then makes good what the tank loses", () => {
    const result = of({
      tanks: [tank("a", { maximumFillKg: 10_000 })],
      tanker: metered,
      lossPeriods: [lossPeriod("p", "a", 0, 1000)],
      opening: { a: 2000 },
      flights: [flight("f", 0, 1, 30_000, { berthDays: 2 })],
    });
    // 1,000 at day 1, +9,000/day: full at day 2; then 1,000 kg/day until day 3: 10,000 + 1,000 taken
    expect(level(result, "a", 1.999)).toBeLessThan(10_000);
    expect(level(result, "a", 2)).toBeCloseTo(10_000, 6);
    expect(level(result, "a", 2.9)).toBeCloseTo(10_000, 8);
    expect(level(result, "a", 4)).toBeCloseTo(9000, 6);
    const line = result.flights[0]?.lines[0];
    expect(line?.taken[0]?.massKg).toBeCloseTo(11_000, 6);
    expect(line?.keptAboardKg).toBeCloseTo(19_000, 6);
    expect(line?.untilAt).toBe(day(3));
  });
  it("is drawn upon while it runs", () => {
    const result = of({
      tanks: [tank("a", { maximumFillKg: 10_000 })],
      tanker: metered,
      opening: { a: 5000 },
      flights: [flight("f", 0, 1, 10_000, { berthDays: 4 })],
      sorties: [sortie("s", 1.25, 6000)],
    });
    // 7,500 at day 1.25, 1,500 after the draw; +10,000/day for the 7,500 kg that are left: day 2
    expect(result.sorties[0]).toMatchObject({ status: "supplied", outcome: "flies" });
    expect(level(result, "a", 1.25)).toBeCloseTo(1500, 6);
    expect(level(result, "a", 2)).toBeCloseTo(9000, 6);
    expect(level(result, "a", 3)).toBeCloseTo(9000, 6);
  });
  it("shares the room with another that runs at the same time", () => {
    const result = of({
      tanks: [tank("a", { maximumFillKg: 10_000 })],
      tanker: metered,
      flights: [flight("f", 0, 1, 8000, { berthDays: 5 }), flight("g", 0, 1, 8000, { berthDays: 5 })],
    });
    const taken = result.flights.map((row) => row.lines[0]?.taken[0]?.massKg ?? 0);
    expect(taken[0]).toBeCloseTo(5000, 6);
    expect(taken[1]).toBeCloseTo(5000, 6);
    expect(level(result, "a", 1.5)).toBeCloseTo(10_000, 6);
  });
  it("fills one tank after the other", () => {
    const result = of({
      tanks: [tank("a", { maximumFillKg: 4000 }), tank("b", { maximumFillKg: 9000 })],
      tanker: metered,
      flights: [flight("f", 0, 1, 10_000, { berthDays: 5 })],
    });
    expect(level(result, "a", 1.4)).toBeCloseTo(4000, 6);
    expect(level(result, "b", 1.4)).toBeCloseTo(0, 6);
    expect(level(result, "b", 3)).toBeCloseTo(6000, 6);
  });
  it("that ends at the very instant at which the tank's rate changes wakes the sortie that waits for the last of it", () => {
    const result = of({
      tanker: metered,
      shortPolicy: "wait",
      lossPeriods: [lossPeriod("p", "a", 0, 0), lossPeriod("q", "a", 0, 1, 2)],
      flights: [flight("f", 0, 1, 20_000, { berthDays: 1 })],
      sorties: [sortie("s", 1.5, 10_000)],
    });
    expect(result.sorties[0]).toMatchObject({ outcome: "waits and flies", loadedAt: day(2) });
  });
  it("still running at the horizon has given what it has given", () => {
    const result = of({ tanker: metered, horizonDay: 1.5, flights: [flight("f", 0, 1, 10_000, { berthDays: 5 })] });
    expect(result.losses[0]?.closingKg).toBeCloseTo(5000, 6);
    expect(result.flights[0]?.lines[0]?.keptAboardKg).toBeCloseTo(5000, 6);
  });
  it("refused by a tank above its maximum leaves nothing behind that a later handover elsewhere could set off", () => {
    const plan = (isFollowed: boolean): SmallPlan => ({
      depots: [depot("tarn"), depot("corrie")],
      tanks: [tank("a", { maximumFillKg: 1000 }), tank("b", { maximumFillKg: 5000, ownerId: "corrie" })],
      opening: { a: 1300 },
      lossPeriods: [lossPeriod("p", "a", 0.01, 0)],
      tanker: [carries({ rateKgPerDay: 2000 })],
      flights: [
        flight("f1", 0, 1, 500, { berthDays: 1 }),
        ...(isFollowed ? [flight("f2", 90, 100, 500, { berthDays: 1, depotId: "corrie" })] : []),
      ],
      sorties: [sortie("s", 50, 300)],
      horizonDay: 120,
    });
    const alone = of(plan(false));
    const followed = of(plan(true));
    // The tank drifts from above its maximum, gives 300 kg on day 50 and gets nothing: (1300·e^−0.5 − 300)·e^−0.51
    const expected = (1300 * Math.exp(-0.5) - 300) * Math.exp(-0.51);
    expect(level(alone, "a", 101)).toBeCloseTo(expected, 6);
    expect(level(followed, "a", 101)).toBeCloseTo(expected, 6);
    for (const balance of followed.balances) expect(Math.abs(imbalanceKg(balance))).toBeLessThan(1e-6);
  });
});

describe("a sortie", () => {
  it("draws its load with chilldown and loss, highest loss first, above the heel", () => {
    const result = of({
      tanks: [tank("a", { heelKg: 100 }), tank("b", { heelKg: 200 })],
      lossPeriods: [lossPeriod("p", "b", 0, 0.5)],
      opening: { a: 8000, b: 5205 },
      lander: [carries({ chilldownKg: 40, lossFraction: 0.1 })],
      sorties: [sortie("s", 10, 9000)],
    });
    // 40 + 9,000/0.9 = 10,040: tank b gives 5,205 − 5 − 200 = 5,000, tank a the rest
    const line = result.sorties[0]?.lines[0];
    expect(line?.drawn.map((part) => part.tankId)).toEqual(["b", "a"]);
    expect(line?.drawn[0]?.massKg).toBeCloseTo(5000, 9);
    expect(line?.drawn[1]?.massKg).toBeCloseTo(5040, 9);
    expect(line?.availableKg).toBeCloseTo(12_900, 9);
    expect(line?.requiredKg).toBeCloseTo(10_040, 9);
    expect(line?.handoverLossKg).toBeCloseTo(1000, 9);
  });
  it("is supplied to the last gram, thin into the reserve, short one kilogram below", () => {
    const status = (openingKg: number) =>
      of({
        tanks: [tank("a", { heelKg: 500, reserveKg: 2500 })],
        opening: { a: openingKg },
        sorties: [sortie("s", 1, 10_000)],
      }).sorties[0]?.status;
    expect(status(12_500)).toBe("supplied");
    expect(status(12_499)).toBe("thin");
    expect(status(10_500)).toBe("thin");
    expect(status(10_499)).toBe("short");
  });
  it("that is short stands down and draws nothing", () => {
    const result = of({ opening: { a: 900 }, sorties: [sortie("s", 1, 1000), sortie("t", 2, 800)] });
    expect(result.sorties[0]).toMatchObject({ status: "short", outcome: "stands down", loadedAt: null });
    expect(result.sorties[1]).toMatchObject({ status: "supplied", outcome: "flies" });
    expect(level(result, "a", 3)).toBe(100);
  });
  it("loads after a delivery and before a tanker's draw of the same instant", () => {
    const result = of({
      depots: [depot("tarn"), depot("corrie")],
      tanks: [tank("a"), tank("b", { ownerId: "corrie" })],
      flights: [
        flight("in", 1, 5, 1000),
        flight("out", 5, 9, 1000, { origin: { kind: "depot", depotId: "tarn" }, depotId: "corrie" }),
      ],
      sorties: [sortie("s", 5, 900)],
    });
    expect(result.sorties[0]?.outcome).toBe("flies");
    expect(result.flights[1]?.lines[0]).toMatchObject({ loadedKg: 100, missingKg: 900 });
    expect(level(result, "b", 10)).toBe(100);
  });
  it("waits for the first window at which it can load, then comes home later by as much", () => {
    const result = of({
      depots: [depot("tarn", { windowPeriodDays: 7, windowReferenceAt: day(0) })],
      shortPolicy: "wait",
      flights: [flight("f", 0, 15, 5000)],
      sorties: [sortie("s", 7, 5000, { returnKg: 300 })],
    });
    expect(result.sorties[0]).toMatchObject({
      status: "short",
      outcome: "waits and flies",
      loadedAt: day(21),
      returnAt: day(31),
    });
    expect(level(result, "heron-1:lox", 31)).toBe(300);
  });
  it("stands down when no window opens within the hold limit", () => {
    const result = of({
      depots: [depot("tarn", { windowPeriodDays: 7, windowReferenceAt: day(0) })],
      shortPolicy: "wait",
      holdLimitDays: 13,
      flights: [flight("f", 0, 15, 5000)],
      sorties: [sortie("s", 7, 5000)],
    });
    expect(result.sorties[0]).toMatchObject({ outcome: "stands down", loadedAt: null });
    expect(level(result, "a", 60)).toBe(5000);
  });
  it("without windows waits for the delivery itself", () => {
    const result = of({
      shortPolicy: "wait",
      flights: [flight("f", 0, 9, 3000), flight("g", 0, 15.25, 2000), flight("h", 0, 20, 2000)],
      sorties: [sortie("s", 7, 5000)],
    });
    expect(result.sorties[0]).toMatchObject({ outcome: "waits and flies", loadedAt: day(15.25) });
  });
  it("cannot load while its lander is away", () => {
    const wanted: SmallPlan = { opening: { a: 50_000 }, sorties: [sortie("s", 1, 5000), sortie("t", 6, 5000)] };
    expect(of(wanted).sorties[1]).toMatchObject({ status: "short", outcome: "stands down", landerIsAway: true });
    expect(of({ ...wanted, shortPolicy: "wait" }).sorties[1]).toMatchObject({
      outcome: "waits and flies",
      loadedAt: day(11),
    });
  });
});

describe("a lander between sorties", () => {
  it("keeps what came home, which boils off at the docked rate and spares the next top-up", () => {
    const result = of({
      opening: { a: 50_000 },
      lander: [carries({ cKgPerDay: 5, chilldownKg: 20 })],
      sorties: [sortie("s", 0, 10_000, { returnKg: 400 }), sortie("t", 30, 10_000)],
    });
    // home at day 10 with 400, 300 at day 30: 9,700 + 20 drawn
    const line = result.sorties[1]?.lines[0];
    expect(line?.aboardKg).toBeCloseTo(300, 8);
    expect(line?.drawn[0]?.massKg).toBeCloseTo(9720, 8);
    expect(level(result, "heron-1:lox", 5)).toBe(0);
    expect(level(result, "heron-1:lox", 20)).toBeCloseTo(350, 8);
  });
  it("uses its own tank and that tank's loss periods where there are such", () => {
    const result = of({
      tanks: [tank("a"), tank("h", { ownerKind: "craft", ownerId: "heron-1" })],
      lossPeriods: [lossPeriod("p", "h", 0, 2)],
      opening: { a: 50_000, h: 1000 },
      lander: [carries({ cKgPerDay: 5 })],
      sorties: [sortie("s", 100, 10_000)],
    });
    expect(result.sorties[0]?.lines[0]?.aboardKg).toBeCloseTo(800, 8);
  });
  it("draws nothing when it has enough", () => {
    const result = of({
      opening: { "heron-1:lox": 6000 },
      lander: [carries({ chilldownKg: 20 })],
      sorties: [sortie("s", 1, 5000)],
    });
    expect(result.sorties[0]).toMatchObject({ status: "supplied", outcome: "flies" });
    expect(result.sorties[0]?.lines[0]?.drawn).toEqual([]);
  });
  it("that is out at the as-of instant comes home", () => {
    const result = of({ sorties: [sortie("s", -5, 5000, { status: "departed", returnKg: 250 })] });
    expect(level(result, "heron-1:lox", 4)).toBe(0);
    expect(level(result, "heron-1:lox", 5)).toBe(250);
  });
});

describe("flights between depots", () => {
  const two = {
    depots: [depot("tarn"), depot("corrie"), depot("moss")],
    tanks: [tank("a"), tank("b", { ownerId: "corrie" }), tank("c", { ownerId: "moss" })],
  };
  const hop = (id: string, from: string, to: string, departDay: number, arriveDay: number, massKg: number) =>
    flight(id, departDay, arriveDay, massKg, { origin: { kind: "depot", depotId: from }, depotId: to });
  it("draw with chilldown and loss at departure, and take less where less is there", () => {
    const result = of({
      ...two,
      tanks: [tank("a", { heelKg: 100 }), tank("b", { ownerId: "corrie" })],
      opening: { a: 5160 },
      tanker: [carries({ chilldownKg: 60, lossFraction: 0.1 })],
      flights: [hop("f", "tarn", "corrie", 2, 4, 9000)],
    });
    // 5,060 above heel; − 60, − 10 %: 4,500 loaded; − 60, − 10 %: 3,996 taken
    const line = result.flights[0]?.lines[0];
    expect(line).toMatchObject({ loadedKg: 4500, missingKg: 4500, originChilldownKg: 60 });
    expect(level(result, "a", 5)).toBe(100);
    expect(level(result, "b", 5)).toBeCloseTo(3996, 9);
  });
  it("that take no time hand on in causal order, whatever their names", () => {
    const chain = [hop("z", "tarn", "corrie", 3, 3, 700), hop("a", "corrie", "moss", 3, 3, 700)];
    const result = of({ ...two, opening: { a: 1000 }, flights: chain });
    expect(level(result, "c", 4)).toBe(700);
    expect(result.cyclicFlightIds).toEqual([]);
  });
  it("that feed each other in a circle at one instant are left out and named", () => {
    const circle = [hop("f", "tarn", "corrie", 3, 3, 700), hop("g", "corrie", "tarn", 3, 3, 700)];
    const result = of({ ...two, opening: { a: 1000 }, flights: [...circle, hop("h", "tarn", "moss", 3, 3, 50)] });
    expect(result.cyclicFlightIds).toEqual(["f", "g"]);
    expect(level(result, "c", 4)).toBe(50);
  });
});

it("a rate change takes hold at its instant", () => {
  const result = of({
    opening: { a: 1000 },
    lossPeriods: [lossPeriod("p", "a", 0, 2), lossPeriod("q", "a", 0, 20, 10, 15)],
  });
  expect(level(result, "a", 10)).toBeCloseTo(980, 9);
  expect(level(result, "a", 15)).toBeCloseTo(880, 9);
  expect(level(result, "a", 20)).toBeCloseTo(870, 9);
});

it("nothing of a plan is changed by a forecast", () => {
  const freeze = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    Object.freeze(value);
    for (const part of Object.values(value)) freeze(part);
  };
  const plan: PlanSnapshot = smallPlan({
    opening: { a: 9000 },
    flights: [flight("f", 1, 2, 10)],
    sorties: [sortie("s", 3, 5)],
  });
  freeze(plan);
  expect(forecast(plan)).toEqual(forecast(plan));
});
