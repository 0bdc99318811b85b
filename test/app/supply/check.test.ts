/** The supply check on plans small enough to be worked by hand. */
import { describe, expect, it } from "vitest";
import { check } from "../../../app/supply/check.ts";
import {
  carries,
  day,
  depot,
  flight,
  lossPeriod,
  type SmallPlan,
  smallPlan,
  sortie,
  tank,
} from "../forecast/small-plan.ts";

const of = (wanted: SmallPlan) => check(smallPlan(wanted));
const kinds = (wanted: SmallPlan) => of(wanted).findings.map((finding) => finding.kind);
const DAYS_A_MINUTE = 1 / 1440;

/** 10 t in the tank, a sortie of 12 t at day 30, and a delivery of 5 t at day 20. */
const plain: SmallPlan = {
  opening: { a: 10_000 },
  flights: [flight("f", 15, 20, 5000)],
  sorties: [sortie("s", 30, 12_000)],
};

describe("a sortie's line", () => {
  it("says what there is, what it takes, and what is left over the reserve", () => {
    const answer = of({
      ...plain,
      tanks: [tank("a", { heelKg: 200, reserveKg: 1000 })],
      lander: [carries({ chilldownKg: 100 })],
    });
    // available 15,000 − 200; required 12,100; reserve above heel 800
    expect(answer.sorties[0]?.lines[0]).toMatchObject({
      availableKg: 14_800,
      requiredKg: 12_100,
      marginOverReserveKg: 1900,
      status: "supplied",
      missingKg: 0,
    });
    expect(answer.sorties[0]?.lines[0]?.marginPercent).toBeCloseTo((100 * 1900) / 12_100, 9);
    expect(answer.holds).toBe(true);
  });
  it("of a short one says what is missing, and the first instant at which it could go", () => {
    const answer = of({
      ...plain,
      flights: [flight("f", 15, 20, 1000), flight("g", 40, 45, 500), flight("h", 45, 50, 700)],
    });
    expect(answer.sorties[0]).toMatchObject({ status: "short", outcome: "stands down", firstPossibleAt: day(50) });
    expect(answer.sorties[0]?.lines[0]?.missingKg).toBeCloseTo(1000, 9);
    expect(answer.holds).toBe(false);
  });
  it("counts only windows where the depot has them", () => {
    const windows = [depot("tarn", { windowPeriodDays: 7, windowReferenceAt: day(1) })];
    expect(of({ ...plain, depots: windows, flights: [flight("f", 25, 40, 5000)] }).sorties[0]?.firstPossibleAt).toBe(
      day(43),
    );
  });
  it("finds the minute at which a metered handover has brought enough", () => {
    const answer = of({
      ...plain,
      tanker: [carries({ rateKgPerDay: 1000 })],
      flights: [flight("f", 25, 40, 5000, { berthDays: 9 })],
    });
    const at = answer.sorties[0]?.firstPossibleAt ?? 0;
    expect(at).toBeGreaterThanOrEqual(day(42));
    expect(at).toBeLessThanOrEqual(day(42) + 60_000);
  });
  it("is null when nothing brings enough before the horizon", () =>
    expect(of({ ...plain, flights: [] }).sorties[0]?.firstPossibleAt).toBeNull());
  it("names the propellant with the least margin", () => {
    const both = {
      demand: {
        kind: "stated" as const,
        lines: [
          { propellantId: "lox", loadKg: 6000, returnKg: 0 },
          { propellantId: "lh2", loadKg: 1000, returnKg: 0 },
        ],
      },
    };
    const answer = of({
      tanks: [tank("a"), tank("b", { propellantId: "lh2" })],
      opening: { a: 9000, b: 1200 },
      lander: [carries(), carries({ propellantId: "lh2" })],
      sorties: [sortie("s", 3, 0, both)],
    });
    expect(answer.sorties[0]?.limitingPropellantId).toBe("lh2");
  });
});

describe("slack", () => {
  it("is the time to the sortie when all hangs on the delivery, to the minute", () => {
    const answer = of(plain);
    expect(answer.slack).toEqual([{ flightId: "f", sortieId: "s", slackDays: 10 }]);
    expect(answer.hinges).toEqual([{ flightId: "f", sortieId: "s", becomes: "does not fly" }]);
    expect(answer.latestDeparture).toEqual([{ flightId: "f", at: day(25) }]);
  });
  it("is any when the delivery is not needed", () => {
    const answer = of({ ...plain, opening: { a: 20_000 } });
    expect(answer.slack).toEqual([{ flightId: "f", sortieId: "s", slackDays: "any" }]);
    expect(answer.hinges).toEqual([]);
    expect(answer.latestDeparture).toEqual([{ flightId: "f", at: null }]);
  });
  it("of a metered delivery ends when too little would have flowed", () => {
    const answer = of({
      ...plain,
      tanker: [carries({ rateKgPerDay: 1000 })],
      flights: [flight("f", 15, 20, 5000, { berthDays: 9 })],
    });
    // 2,000 kg are needed: two days before the sortie
    const slack = answer.slack[0]?.slackDays;
    expect(typeof slack === "number" && Math.abs(slack - 8)).toBeLessThanOrEqual(DAYS_A_MINUTE);
  });
  it("ends with the first slip that is bad, even if a longer one is good again", () => {
    // The tank is full when f comes at day 2. Later than r's draw at day 5 it fits, q can then fly at day 10 and
    // leaves too little for s; later than q it is all there for s again.
    const answer = of({
      tanks: [tank("a", { maximumFillKg: 10_000 })],
      opening: { a: 10_000 },
      landers: ["heron-1", "heron-2", "heron-3"],
      flights: [flight("f", 1, 2, 3000)],
      sorties: [
        sortie("r", 5, 4000),
        sortie("q", 10, 8000, { landerId: "heron-2" }),
        sortie("s", 20, 6000, { landerId: "heron-3" }),
      ],
    });
    expect(answer.sorties.map((row) => row.status)).toEqual(["supplied", "short", "supplied"]);
    expect(answer.slack.find((row) => row.sortieId === "s")?.slackDays).toBe(3);
    expect(answer.slack.find((row) => row.sortieId === "r")?.slackDays).toBe("any");
  });
  it("is not given for sorties that are short, nor for flights that come after", () => {
    const answer = of({ ...plain, flights: [flight("f", 15, 20, 500), flight("g", 30, 35, 5000)] });
    expect(answer.slack).toEqual([]);
  });
});

describe("findings", () => {
  it("overflow says how much, when, and what becomes of it", () => {
    const wanted: SmallPlan = {
      opening: { a: 98_000 },
      flights: [flight("f", 1, 2, 5000)],
      sorties: [sortie("s", 3, 10)],
    };
    expect(of(wanted).findings).toEqual([
      { kind: "overflow", flightId: "f", propellantId: "lox", at: day(2), notTakenKg: 3000, fate: "kept aboard" },
    ]);
  });
  it("a full depot takes nothing", () =>
    expect(kinds({ opening: { a: 100_000 }, flights: [flight("f", 1, 2, 5000)] })).toEqual([
      "full depot",
      "overflow",
      "unused flight",
    ]));
  it("a port conflict names all tankers and the time", () => {
    const crowd: SmallPlan = {
      opening: { a: 50_000 },
      depots: [depot("tarn", { ports: 1 })],
      flights: [
        flight("f", 1, 2, 100, { craftId: "one", berthDays: 3 }),
        flight("g", 1, 4, 100, { craftId: "two", berthDays: 3 }),
        flight("h", 1, 7, 100, { craftId: "three", berthDays: 3 }),
        flight("i", 1, 8, 100, { craftId: "four", berthDays: 1 }),
      ],
      sorties: [sortie("s", 100, 10)],
    };
    // h arrives as g leaves: no conflict
    expect(of(crowd).findings).toEqual([
      { kind: "port conflict", depotId: "tarn", flightIds: ["f", "g"], fromAt: day(4), untilAt: day(5), ports: 1 },
      { kind: "port conflict", depotId: "tarn", flightIds: ["h", "i"], fromAt: day(8), untilAt: day(9), ports: 1 },
    ]);
  });
  it("a tank runs empty and is filled again", () => {
    const wanted: SmallPlan = {
      opening: { a: 100 },
      lossPeriods: [lossPeriod("p", "a", 0, 10)],
      flights: [flight("f", 14, 15, 50)],
      sorties: [sortie("s", 16, 10)],
      horizonDay: 16,
    };
    expect(of(wanted).findings).toEqual([{ kind: "tank empty", tankId: "a", fromAt: day(10), untilAt: day(15) }]);
  });
  it("a tank that begins empty is no finding", () =>
    expect(kinds({ flights: [flight("f", 1, 2, 10)], sorties: [sortie("s", 3, 5)], horizonDay: 3.5 })).toEqual([]));
  it("below reserve, from when to when and how low, the tanks of a propellant together", () => {
    const wanted: SmallPlan = {
      tanks: [tank("a", { reserveKg: 500 }), tank("b", { reserveKg: 300 })],
      opening: { a: 600, b: 400 },
      lossPeriods: [lossPeriod("p", "a", 0, 10), lossPeriod("q", "b", 0, 10)],
      flights: [flight("f", 14, 15, 500)],
      horizonDay: 20,
    };
    const finding = of(wanted).findings.find((row) => row.kind === "below reserve");
    // 1,000 − 20 a day: 800 at day 10, 700 at day 15
    expect(finding).toMatchObject({ depotId: "tarn", propellantId: "lox", untilAt: day(15) });
    expect(finding?.fromAt).toBeCloseTo(day(10), -1);
    expect(finding?.lowestKg).toBeCloseTo(700, 6);
  });
  it("a depot that cannot give what a flight is to load", () => {
    const wanted: SmallPlan = {
      depots: [depot("tarn"), depot("corrie")],
      tanks: [tank("a", { heelKg: 100 }), tank("b", { ownerId: "corrie" })],
      opening: { a: 500 },
      flights: [flight("f", 2, 4, 900, { origin: { kind: "depot", depotId: "tarn" }, depotId: "corrie" })],
    };
    expect(of(wanted).findings).toEqual([
      { kind: "origin ran dry", flightId: "f", propellantId: "lox", at: day(2), missingKg: 500 },
      { kind: "unused flight", flightId: "f" },
    ]);
  });
  it("two sorties of one lander at once, and a load that it cannot hold", () => {
    const wanted: SmallPlan = {
      opening: { a: 90_000 },
      lander: [carries({ capacityKg: 8000 })],
      sorties: [sortie("s", 1, 9000), sortie("t", 5, 7000)],
    };
    expect(of(wanted).findings).toEqual([
      { kind: "lander overlap", landerId: "heron-1", sortieIds: ["s", "t"] },
      { kind: "lander cannot hold", sortieId: "s", propellantId: "lox", capacityKg: 8000, loadKg: 9000 },
    ]);
  });
  it("a flight after the last draw is unused", () =>
    expect(of({ ...plain, flights: [...(plain.flights ?? []), flight("g", 31, 36, 100)] }).findings).toEqual([
      { kind: "unused flight", flightId: "g" },
    ]));
  it("what is overdue, and flights in a circle", () => {
    const hop = (id: string, from: string, to: string) =>
      flight(id, 3, 3, 5, { craftId: id, origin: { kind: "depot", depotId: from }, depotId: to });
    const wanted: SmallPlan = {
      depots: [depot("tarn"), depot("corrie")],
      opening: { a: 900 },
      flights: [flight("f", -2, 3, 10), hop("g", "tarn", "corrie"), hop("h", "corrie", "tarn")],
      sorties: [sortie("s", 20, 10)],
    };
    expect(of(wanted).findings).toEqual([
      { kind: "circular flights", flightIds: ["g", "h"] },
      { kind: "overdue", id: "f", at: day(0) },
    ]);
  });
});

it("tells how far it is, from nothing to all", () => {
  const heard: number[] = [];
  check(smallPlan(plain), (share) => heard.push(share));
  expect(heard[0]).toBe(0);
  expect(heard.at(-1)).toBe(1);
  expect(heard).toEqual(heard.toSorted((a, b) => a - b));
});

it("stops when the one who listens throws", () =>
  expect(() =>
    check(smallPlan(plain), () => {
      throw new Error("enough");
    }),
  ).toThrow("enough"));
