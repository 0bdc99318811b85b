/** Random small plans for the properties of the forecast: two depots, several tanks, all kinds of handover, outages. */
import * as fc from "fast-check";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity } from "../../app/entity/entities.ts";
import { carries, day, depot, flight, lossPeriod, smallPlan, sortie, tank } from "../app/forecast/small-plan.ts";

export interface Range {
  /** Days from start to horizon. */
  readonly days: number;
  readonly flights: number;
  readonly sorties: number;
  /** Constant losses empty tanks, which an integrator cannot follow: off for that comparison. */
  readonly constantLoss: boolean;
  readonly betweenDepots: boolean;
}

const kg = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);
/** Days in hundredths: instants fall together often enough. */
const when = (days: number) => fc.integer({ min: 0, max: days * 4 }).map((quarter) => quarter / 4);

export const randomPlan = (range: Range): fc.Arbitrary<PlanSnapshot> => {
  const rate = fc.tuple(
    fc.integer({ min: 0, max: 60 }).map((n) => n / 1000),
    range.constantLoss ? fc.integer({ min: 0, max: 40 }) : fc.constant(0),
  );
  const tanks = fc.array(
    fc.record({
      maximumFillKg: kg(300, 3000),
      heelKg: kg(0, 60),
      reserveKg: kg(60, 200),
      rank: fc.option(fc.integer({ min: 0, max: 2 }), { freq: 3 }),
      ownerId: range.betweenDepots ? fc.constantFrom("tarn", "corrie") : fc.constant("tarn"),
      rate,
      // A tank may open above its maximum: a limit that was lowered, or a gauge that says so.
      openingShare: fc.oneof(
        { weight: 4, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
        { weight: 1, arbitrary: fc.double({ min: 1, max: 1.3, noNaN: true }) },
      ),
    }),
    { minLength: 1, maxLength: 3 },
  );
  const outages = fc.array(fc.tuple(fc.nat(2), when(range.days), when(range.days), rate), { maxLength: 3 });
  const flights = fc.array(
    fc.record({
      arrive: when(range.days),
      coast: fc.integer({ min: 0, max: 12 }).map((quarter) => quarter / 4),
      loadedKg: kg(50, 1500),
      berthDays: fc.constantFrom(0.25, 1, 2.5),
      overflow: fc.constantFrom("keep aboard" as const, "vent" as const),
      from: fc.constantFrom("ground", ...(range.betweenDepots ? ["tarn", "corrie"] : [])),
    }),
    { minLength: 1, maxLength: range.flights },
  );
  const sorties = fc.array(
    fc.record({
      load: when(range.days),
      trip: fc.constantFrom(0.5, 1, 3),
      loadKg: kg(50, 1500),
      lander: fc.nat(1),
      // One that comes home with much leaves more aboard than a small one after it needs.
      returnShare: fc.constantFrom(0.05, 0.05, 0.6, 1),
    }),
    { minLength: 1, maxLength: range.sorties },
  );
  const handling = fc.record({
    chilldownKg: fc.constantFrom(0, 5),
    lossFraction: fc.constantFrom(0, 0.02),
    residualKg: fc.constantFrom(0, 10),
    rateKgPerDay: fc.constantFrom(null, null, 400, 2000),
    kPerDay: fc.constantFrom(0, 0.01),
  });
  return fc
    .record({
      tanks,
      outages,
      flights,
      sorties,
      handling,
      shortPolicy: fc.constantFrom("stand down" as const, "wait" as const),
      windowDays: fc.constantFrom(null, 1.5),
    })
    .map((drawn) => build(drawn, range));
};

const build = (
  drawn: {
    tanks: readonly {
      maximumFillKg: number;
      heelKg: number;
      reserveKg: number;
      rank: number | null;
      ownerId: string;
      rate: [number, number];
      openingShare: number;
    }[];
    outages: readonly [number, number, number, [number, number]][];
    flights: readonly {
      arrive: number;
      coast: number;
      loadedKg: number;
      berthDays: number;
      overflow: "keep aboard" | "vent";
      from: string;
    }[];
    sorties: readonly { load: number; trip: number; loadKg: number; lander: number; returnShare: number }[];
    handling: {
      chilldownKg: number;
      lossFraction: number;
      residualKg: number;
      rateKgPerDay: number | null;
      kPerDay: number;
    };
    shortPolicy: "stand down" | "wait";
    windowDays: number | null;
  },
  range: Range,
): PlanSnapshot => {
  const windows = { windowPeriodDays: drawn.windowDays, windowReferenceAt: drawn.windowDays === null ? null : day(0) };
  const tanks = drawn.tanks.map(({ maximumFillKg, heelKg, reserveKg, rank, ownerId }, n) =>
    tank(`t${n}`, { maximumFillKg, heelKg, reserveKg, rank, ownerId }),
  );
  return smallPlan({
    depots: [depot("tarn", windows), depot("corrie", windows)],
    tanks,
    opening: Object.fromEntries(drawn.tanks.map((row, n) => [`t${n}`, row.maximumFillKg * row.openingShare])),
    lossPeriods: [
      ...drawn.tanks.map(({ rate: [k, c] }, n) => lossPeriod(`p${n}`, `t${n}`, k, c)),
      ...drawn.outages
        .filter(([n]) => n < tanks.length)
        .map(([n, from, length, [k, c]], i) => lossPeriod(`o${i}`, `t${n}`, k, c, from, from + length)),
    ],
    tanker: [carries({ ...drawn.handling })],
    lander: [carries({ kPerDay: drawn.handling.kPerDay, chilldownKg: drawn.handling.chilldownKg })],
    landers: ["heron-1", "heron-2"],
    flights: drawn.flights.map((row, n): Entity<"flight"> => {
      const to = row.from === "tarn" ? "corrie" : "tarn";
      return flight(`f${n}`, row.arrive - row.coast, row.arrive, row.loadedKg, {
        berthDays: row.berthDays,
        overflow: row.overflow,
        depotId: to,
        origin: row.from === "ground" ? { kind: "source", sourceId: "ground" } : { kind: "depot", depotId: row.from },
        // One that left before the start is under way.
        status: row.arrive - row.coast < 0 ? "departed" : "planned",
      });
    }),
    sorties: drawn.sorties.map((row, n) =>
      sortie(`s${n}`, row.load, row.loadKg, {
        returnAt: day(row.load + row.trip),
        landerId: `heron-${row.lander + 1}`,
        returnKg: row.loadKg * row.returnShare,
      }),
    ),
    horizonDay: range.days,
    shortPolicy: drawn.shortPolicy,
    holdLimitDays: 4,
  });
};
