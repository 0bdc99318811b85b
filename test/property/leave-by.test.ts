/** Latest and earliest departures against a scan of every minute; ports and hulls against the findings of the moved plan. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { forecast } from "../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { type Engine, createEngine } from "../../app/forecast/propagate.ts";
import { leftCount } from "../../app/forecast/read-run.ts";
import type { LeaveBy } from "../../app/resupply/leave-by-answer.ts";
import { leaveBy } from "../../app/resupply/leave-by.ts";
import { check } from "../../app/supply/check.ts";
import { fatesOf } from "../../app/supply/fate.ts";
import { hullFindings } from "../../app/supply/hulls.ts";
import { portConflicts } from "../../app/supply/port-conflicts.ts";
import { demoPlan, shakenProblem } from "../app/resupply/random-problem.ts";
import { count, seeds } from "../app/resupply/seeds.ts";
import { chance } from "../bench/chance.ts";
import { randomPlan } from "./random-plan.ts";

const MINUTE = 60_000;
/** Random plans are drawn one after the other: a round of the long run passes over those of the rounds before it. */
const PLANS = seeds(25, 400);
const quiet = { tell: () => undefined, shouldStop: () => false };

/** What one minute of the scan sees. */
const seen = (engine: Engine, flights: readonly number[], minutes: number) => {
  for (const flight of flights) engine.input.flightSlipMs[flight] = minutes * MINUTE;
  const run = engine.go();
  for (const flight of flights) engine.input.flightSlipMs[flight] = 0;
  const left = new Float64Array(run.plan.flightIds.length);
  for (let n = 0; n < leftCount(run); n += 1) {
    const flight = run.plan.lineFlight[run.leftLine[n] ?? 0] ?? 0;
    left[flight] = (left[flight] ?? 0) + (run.leftKg[n] ?? 0);
  }
  return { fates: fatesOf(run), left, loaded: run.lineLoadedKg.slice() };
};
type Seen = ReturnType<typeof seen>;

const isLater = (now: Seen, then: Seen): boolean => then.fates.some((fate, n) => fate > (now.fates[n] ?? 0));
const isEarlier = (now: Seen, then: Seen): boolean =>
  isLater(now, then) ||
  then.left.some((massKg, n) => massKg > (now.left[n] ?? 0) + 1e-3) ||
  then.loaded.some((massKg, n) => massKg < (now.loaded[n] ?? 0) - 1e-3);

/** The first minute up to `most` that is worse; Infinity: none. */
const scan = (
  engine: Engine,
  flights: readonly number[],
  direction: 1 | -1,
  most: number,
  isWorse: (now: Seen, then: Seen) => boolean,
): number => {
  const now = seen(engine, flights, 0);
  for (let minute = 1; minute <= most; minute += 1)
    if (isWorse(now, seen(engine, flights, direction * minute))) return minute;
  return Infinity;
};

const moved = (plan: PlanSnapshot, row: LeaveBy, departAt: number): PlanSnapshot => ({
  ...plan,
  flights: plan.flights.map((flight) =>
    flight.id === row.flightId
      ? { ...flight, departAt, arriveAt: flight.arriveAt + departAt - flight.departAt }
      : flight,
  ),
});
const conflicts = (plan: PlanSnapshot, flightId: string): number =>
  portConflicts(plan, forecast(plan)).filter(
    (found) => found.kind === "port conflict" && found.flightIds.includes(flightId),
  ).length;
const overlaps = (plan: PlanSnapshot): number => hullFindings(plan, forecast(plan)).length;

/** Asks for a quarter, so that more sorties are held and have something to lose. */
const modest = (plan: PlanSnapshot): PlanSnapshot => ({
  ...plan,
  sorties: plan.sorties.map((row) => {
    if (row.demand.kind !== "stated") return row;
    const lines = row.demand.lines.map((line) => ({ ...line, loadKg: line.loadKg / 4, returnKg: line.returnKg / 4 }));
    return { ...row, demand: { kind: "stated" as const, lines } };
  }),
});

/** Each flight with a hull of its own, so that it is not the hull that binds. */
const ownHulls = (plan: PlanSnapshot): PlanSnapshot => ({
  ...plan,
  flights: plan.flights.map((row) => ({ ...row, craftId: `own-${row.id}` })),
  craft: [
    ...plan.craft,
    ...plan.flights.map((row) => ({
      ...plan.craft.find(({ id }) => id === row.craftId)!,
      id: `own-${row.id}`,
      name: `Own ${row.id}`,
    })),
  ],
});

/** What is wrong with a row. */
const faultsOf = (plan: PlanSnapshot, engine: Engine, row: LeaveBy): readonly string[] => {
  const flight = engine.run.plan.flightIds.indexOf(row.flightId);
  const faults: string[] = [];
  const toHorizon = Math.floor((plan.horizonAt - (engine.run.plan.flightArriveAt[flight] ?? 0)) / MINUTE);
  const late = scan(engine, [flight], 1, toHorizon, isLater);
  const latest = row.latestAt === null ? Infinity : (row.latestAt - row.departAt) / MINUTE + 1;
  if (late !== latest) faults.push(`${row.flightId}: worse after ${late} min, said ${latest}`);
  const advance = (row.departAt - row.earliestAt) / MINUTE;
  const early = scan(engine, [flight], -1, Math.min(advance + 1, (row.departAt - plan.asOfAt) / MINUTE), isEarlier);
  if (early <= advance) faults.push(`${row.flightId}: too early by ${early} min already, said ${advance}`);
  const { kind } = row.earliestBy;
  const isSearched = kind === "sortie" || kind === "tank room" || kind === "origin";
  if (isSearched && early !== advance + 1) faults.push(`${row.flightId}: ${kind} at ${early}, said ${advance + 1}`);
  if (kind === "as-of" && row.earliestAt - MINUTE >= plan.asOfAt)
    faults.push(`${row.flightId}: before the as-of instant`);
  return faults;
};

describe("latest and earliest departures", () => {
  it("equal a scan of every minute in random plans, with ports and hulls as the checks see them", (context) => {
    const plans = fc.sample(
      randomPlan({ days: 2.5, flights: 4, sorties: 4, constantLoss: true, betweenDepots: true }),
      {
        seed: 13,
        numRuns: PLANS.at(-1) ?? 0,
      },
    );
    const faults: string[] = [];
    const kinds = new Map<string, number>();
    for (const seed of PLANS) {
      const n = seed - 1;
      const drawn = plans[n]!;
      const asked = n % 3 === 0 ? drawn : modest(drawn);
      const plan = n % 4 === 0 ? asked : ownHulls(asked);
      const answer = leaveBy(plan, quiet);
      const engine = createEngine(forecast(plan).compiled);
      for (const row of answer.flights) {
        faults.push(...faultsOf(plan, engine, row).map((words) => `${n}, ${words}`));
        const { kind } = row.earliestBy;
        kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
        kinds.set(
          row.latestAt === null ? "never" : "late",
          (kinds.get(row.latestAt === null ? "never" : "late") ?? 0) + 1,
        );
        const at = moved(plan, row, row.earliestAt);
        if (conflicts(plan, row.flightId) === 0 && conflicts(at, row.flightId) > 0)
          faults.push(`${n}, ${row.flightId}: port`);
        if (overlaps(at) > overlaps(plan)) faults.push(`${n}, ${row.flightId}: hull`);
        const before = moved(plan, row, row.earliestAt - MINUTE);
        if (kind === "port" && conflicts(before, row.flightId) === 0)
          faults.push(`${n}, ${row.flightId}: port was free`);
      }
    }
    count(context, "plans whose dates to leave by were scanned", PLANS.length);
    expect(faults).toEqual([]);
    for (const kind of ["never", "as-of", "tank room"]) expect([...kinds.keys()]).toContain(kind);
  });

  it("of a class together equal the scan", (context) => {
    const plans = fc.sample(randomPlan({ days: 2, flights: 4, sorties: 4, constantLoss: true, betweenDepots: false }), {
      seed: 12,
      numRuns: PLANS.at(-1) ?? 0,
    });
    const faults: string[] = [];
    for (const seed of PLANS) {
      const n = seed - 1;
      const plan = plans[n]!;
      const engine = createEngine(forecast(plan).compiled);
      for (const row of leaveBy(plan, quiet).classes) {
        const flights = row.flightIds.map((id) => engine.run.plan.flightIds.indexOf(id));
        const firstArrival = Math.min(...flights.map((flight) => engine.run.plan.flightArriveAt[flight] ?? 0));
        const late = scan(engine, flights, 1, Math.floor((plan.horizonAt - firstArrival) / MINUTE), isLater);
        const said = row.latestSlipMs === null ? Infinity : row.latestSlipMs / MINUTE + 1;
        if (late !== said) faults.push(`${n}: together ${late}, said ${said}`);
        const advance = row.earliestAdvanceMs / MINUTE;
        const early = scan(engine, flights, -1, advance, isEarlier);
        if (early <= advance) faults.push(`${n}: together too early by ${early}, said ${advance}`);
      }
    }
    count(context, "plans whose dates to leave by were scanned", PLANS.length);
    expect(faults).toEqual([]);
  });

  it("are the last good minute and the first bad one in the demonstrations shaken, and no minute between is worse", () => {
    const faults: string[] = [];
    let late = 0;
    for (let seed = 1; seed <= 12; seed += 1) {
      const next = chance(seed);
      const { plan } = shakenProblem(seed, seed % 2 === 0 ? "tarn" : "beck");
      const engine = createEngine(forecast(plan).compiled);
      for (const row of leaveBy(plan, quiet).flights) {
        const flight = engine.run.plan.flightIds.indexOf(row.flightId);
        const now = seen(engine, [flight], 0);
        const slip = row.latestAt === null ? 0 : (row.latestAt - row.departAt) / MINUTE;
        const advance = (row.departAt - row.earliestAt) / MINUTE;
        const isBad = (minutes: number): boolean =>
          (minutes < 0 ? isEarlier : isLater)(now, seen(engine, [flight], minutes));
        if (row.latestAt !== null && !isBad(slip + 1)) faults.push(`${seed}, ${row.flightId}: later is no worse`);
        for (let n = 0; n < 40; n += 1) {
          const minutes = Math.round(next() * (slip + advance)) - advance;
          if (isBad(minutes)) faults.push(`${seed}, ${row.flightId}: worse at ${minutes} min`);
        }
        if (row.latestAt !== null) late += 1;
      }
    }
    expect(faults).toEqual([]);
    expect(late).toBeGreaterThan(5);
  });

  it("agree with the supply check, and come sorted by the date to leave by", () => {
    for (const which of ["tarn", "beck"] as const) {
      const plan = demoPlan(which);
      const { flights } = leaveBy(plan, quiet);
      const dates = new Map(check(plan).latestDeparture.map(({ flightId, at }) => [flightId, at]));
      expect(flights.length).toBeGreaterThan(2);
      for (const row of flights) expect(row.latestAt).toBe(dates.get(row.flightId));
      const sorted = flights.map(({ latestAt }) => latestAt ?? Infinity);
      expect(sorted).toEqual(sorted.toSorted((a, b) => a - b));
    }
  });
});
