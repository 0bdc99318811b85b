/** What holds for every plan: mass is conserved, the order of rows and of looking does not matter, and an integrator agrees. */
import * as fc from "fast-check";
import { Solver } from "odex";
import { describe, expect, it } from "vitest";
import { imbalanceKg } from "../../app/forecast/balance.ts";
import { compile } from "../../app/forecast/compile.ts";
import { levelAt, levelBefore, levelWithin, stretchLevel, sumLevels } from "../../app/forecast/curve.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { lostKg, massKg } from "../../app/forecast/read-run.ts";
import { DAY, day } from "../app/forecast/small-plan.ts";
import { randomPlan } from "./random-plan.ts";
import { runs } from "../suite/runs.ts";

const any = randomPlan({ days: 20, flights: 6, sorties: 4, constantLoss: true, betweenDepots: true });
const smooth = randomPlan({ days: 20, flights: 6, sorties: 4, constantLoss: false, betweenDepots: true });

const shuffled = (plan: PlanSnapshot, seed: number): PlanSnapshot => {
  const turn = <T>(list: readonly T[]): readonly T[] => {
    const cut = list.length === 0 ? 0 : seed % list.length;
    return [...list.slice(cut), ...list.slice(0, cut)].toReversed();
  };
  return {
    ...plan,
    tanks: turn(plan.tanks),
    flights: turn(plan.flights),
    sorties: turn(plan.sorties),
    lossPeriods: turn(plan.lossPeriods),
    opening: turn(plan.opening),
    depots: turn(plan.depots),
    craft: turn(plan.craft),
  };
};

describe("for every plan", () => {
  it("mass is conserved to 1e-9 of what was there", () =>
    fc.assert(
      fc.property(any, (plan) => {
        for (const balance of forecast(plan).balances)
          expect(Math.abs(imbalanceKg(balance))).toBeLessThan(1e-9 * (balance.openingKg + balance.inKg) + 1e-9);
      }),
      { numRuns: runs(400) },
    ));

  it("every flight's and sortie's own account closes", () =>
    fc.assert(
      fc.property(any, (plan) => {
        const seen = forecast(plan);
        for (const { arrives, lines } of seen.flights)
          for (const line of arrives ? lines : []) {
            const taken = line.taken.reduce((sum, part) => sum + part.massKg, 0);
            const out =
              line.inFlightLossKg +
              line.residualKg +
              line.chilldownKg +
              line.handoverLossKg +
              taken +
              line.keptAboardKg +
              line.ventedKg;
            expect(out).toBeCloseTo(line.loadedKg, 6);
            for (const part of line.taken) expect(part.massKg).toBeGreaterThanOrEqual(0);
            expect(line.handoverLossKg).toBeGreaterThanOrEqual(0);
          }
        for (const { loadedAt, lines } of seen.sorties)
          for (const line of loadedAt === null ? [] : lines) {
            const drawn = line.drawn.reduce((sum, part) => sum + part.massKg, 0);
            expect(line.aboardKg + drawn).toBeCloseTo(line.loadedKg + line.chilldownKg + line.handoverLossKg, 6);
          }
      }),
      { numRuns: runs(250) },
    ));

  it("levels stay between empty and the maximum, but for what was above it from the start", () =>
    fc.assert(
      fc.property(any, (plan) => {
        const openings = new Map(plan.opening.map((row) => [row.tankId, row.massKg]));
        const maxima = new Map(
          plan.tanks.map((row) => [row.id, Math.max(row.maximumFillKg, openings.get(row.id) ?? 0)]),
        );
        for (const { tankId, segments } of forecast(plan).levels)
          for (const segment of segments)
            for (const at of [segment.startAt, (segment.startAt + segment.endAt) / 2, segment.endAt]) {
              const level = levelWithin(segment, at);
              expect(level).toBeGreaterThanOrEqual(0);
              expect(level).toBeLessThanOrEqual((maxima.get(tankId) ?? Infinity) * (1 + 1e-9) + 1e-6);
            }
      }),
      { numRuns: runs(250) },
    ));

  it("the order of rows changes nothing", () =>
    fc.assert(
      fc.property(any, fc.nat(50), (plan, seed) => {
        expect(forecast(shuffled(plan, seed))).toEqual(forecast(plan));
      }),
      { numRuns: runs(150) },
    ));

  it("segments join without gap, and a level may be asked for anywhere, alone or summed", () =>
    fc.assert(
      fc.property(any, fc.double({ min: 0, max: 1, noNaN: true }), (plan, share) => {
        const { levels } = forecast(plan);
        const at = plan.asOfAt + share * (plan.horizonAt - plan.asOfAt);
        for (const { segments } of levels) {
          expect(segments[0]?.startAt).toBe(plan.asOfAt);
          expect(segments.at(-1)?.endAt).toBe(plan.horizonAt);
          segments.slice(1).forEach((segment, n) => expect(segment.startAt).toBe(segments[n]?.endAt));
        }
        const stretch = sumLevels(levels.map((row) => row.segments)).find((row) => row.startAt <= at && at < row.endAt);
        const parts = levels.reduce((sum, row) => sum + levelAt(row.segments, at), 0);
        if (stretch !== undefined) expect(stretchLevel(stretch, at)).toBeCloseTo(parts, 6);
      }),
      { numRuns: runs(150) },
    ));

  it("an event that changes nothing, put in anywhere, changes no level", () =>
    fc.assert(
      fc.property(any, fc.integer({ min: 1, max: 79 }), (plan, quarter) => {
        // The rate in force, adopted once more: the propagation is split there.
        const at = day(quarter / 4);
        const again = plan.tanks.flatMap((tank) => {
          const own = plan.lossPeriods.filter(
            (row) => row.tankId === tank.id && (row.fromAt ?? -Infinity) <= at && at < (row.untilAt ?? Infinity),
          );
          const inForce = own.toSorted((a, b) => (b.fromAt ?? 0) - (a.fromAt ?? 0) || (a.id < b.id ? 1 : -1))[0];
          return inForce === undefined ? [] : [{ ...inForce, id: `z-${tank.id}`, fromAt: at, untilAt: at + DAY / 8 }];
        });
        const whole = forecast(plan);
        const parted = forecast({ ...plan, lossPeriods: [...plan.lossPeriods, ...again] });
        fc.pre(
          again.every(
            (row) =>
              !plan.lossPeriods.some(
                (other) =>
                  other.tankId === row.tankId &&
                  other.fromAt !== null &&
                  other.fromAt > at &&
                  other.fromAt < at + DAY / 8,
              ),
          ),
        );
        whole.levels.forEach(({ segments }, n) => {
          for (let t = 0; t <= 20; t += 0.37)
            expect(
              Math.abs(levelBefore(parted.levels[n]?.segments ?? [], day(t)) - levelBefore(segments, day(t))),
            ).toBeLessThan(1e-6);
        });
      }),
      { numRuns: runs(120) },
    ));
});

describe("the engine", () => {
  it("gives the same results run after run, whatever was asked in between", () =>
    fc.assert(
      fc.property(any, fc.nat(1000), (plan, seed) => {
        const engine = createEngine(compile(plan));
        const look = () => {
          const run = engine.go();
          const tanks = run.plan.tankIds.flatMap((_, tank) => [massKg(run, tank), lostKg(run, tank)]);
          return [...tanks, ...run.sortieStatus, ...run.sortieOutcome, ...run.lineDeliverableKg];
        };
        const first = look();
        const flights = engine.input.flightIsLost.length;
        engine.input.flightIsLost[seed % flights] = 1;
        engine.input.flightSlipMs[(seed * 7) % flights] = (seed % 9) * DAY;
        engine.input.rateFactor.fill(1.5);
        engine.go();
        engine.input.flightIsLost.fill(0);
        engine.input.flightSlipMs.fill(0);
        engine.input.rateFactor.fill(1);
        expect(look()).toEqual(first);
      }),
      { numRuns: runs(120) },
    ));

  it("slips a flight or a sortie as an edit of the plan does, and drops one as its removal does", () =>
    fc.assert(
      fc.property(
        randomPlan({ days: 20, flights: 5, sorties: 4, constantLoss: true, betweenDepots: false }),
        fc.nat(100),
        fc.integer({ min: 1, max: 3000 }),
        (plan, pick, minutes) => {
          const compiled = compile(plan);
          const engine = createEngine(compiled);
          const results = (of = engine) => {
            const run = of.go();
            return {
              mass: run.plan.tankIds.map((_, tank) => massKg(run, tank)),
              status: [...run.sortieStatus],
              loaded: [...run.sortieLoadedAt],
            };
          };
          const flight = pick % compiled.flightIds.length;
          const id = compiled.flightIds[flight];
          const ms = minutes * 60_000;
          fc.pre((compiled.flightArriveAt[flight] ?? 0) + ms <= plan.horizonAt);
          engine.input.flightSlipMs[flight] = ms;
          const later = plan.flights.map((row) =>
            row.id === id ? { ...row, departAt: row.departAt + ms, arriveAt: row.arriveAt + ms } : row,
          );
          expect(results()).toEqual(results(createEngine(compile({ ...plan, flights: later }))));
          engine.input.flightSlipMs[flight] = 0;
          engine.input.flightIsLost[flight] = 1;
          const without = plan.flights.filter((row) => row.id !== id);
          expect(results()).toEqual(results(createEngine(compile({ ...plan, flights: without }))));
        },
      ),
      { numRuns: runs(120) },
    ));
});

describe("an integrator of ordinary differential equations (odex, Hairer's extrapolation code)", () => {
  it("agrees with every level to 1e-8 between events, fed with the same jumps", () =>
    fc.assert(
      fc.property(smooth, (plan) => {
        const seen = forecast(plan);
        for (const { segments } of seen.levels)
          for (const { startAt, endAt, m0Kg, kPerDay, cKgPerDay, fKgPerDay } of segments) {
            const days = (endAt - startAt) / DAY;
            if (m0Kg === 0 && fKgPerDay === 0) continue;
            const solver = new Solver(1);
            solver.absoluteTolerance = 1e-11;
            solver.relativeTolerance = 1e-11;
            const { y } = solver.solve((_, [m]) => [fKgPerDay - kPerDay * (m ?? 0) - cKgPerDay], 0, [m0Kg], days);
            const end = levelWithin({ startAt, endAt, m0Kg, kPerDay, cKgPerDay, fKgPerDay }, endAt);
            expect(Math.abs(end - (y[0] ?? Number.NaN))).toBeLessThan(1e-8 * (m0Kg + fKgPerDay * days + 1));
          }
      }),
      { numRuns: runs(30) },
    ));

  it("agrees with the whole course of a tank over outages, deliveries and draws", () =>
    fc.assert(
      fc.property(
        randomPlan({ days: 20, flights: 6, sorties: 4, constantLoss: false, betweenDepots: false }).filter(
          (plan) => plan.tanks.length === 1 && plan.craftClasses[0]?.propellants[0]?.rateKgPerDay === null,
        ),
        (plan) => {
          const seen = forecast(plan);
          const segments = seen.levels.find((row) => row.tankId === "t0")?.segments ?? [];
          // The jumps, from what flights and sorties say they gave and took; the rates, from the loss periods.
          const jumps = [
            ...seen.flights.flatMap((row) =>
              row.lines.map((line) => [row.arriveAt, line.taken[0]?.massKg ?? 0] as const),
            ),
            ...seen.sorties.flatMap((row) =>
              row.lines.map((line) => [row.loadedAt ?? 0, -(line.drawn[0]?.massKg ?? 0)] as const),
            ),
          ].filter(([, massKg]) => massKg !== 0);
          const rateAt = (at: number): number => {
            const own = plan.lossPeriods.filter(
              (row) => row.tankId === "t0" && (row.fromAt ?? -Infinity) <= at && at < (row.untilAt ?? Infinity),
            );
            const best = own
              .toSorted((a, b) => (a.fromAt ?? -Infinity) - (b.fromAt ?? -Infinity) || (a.id < b.id ? -1 : 1))
              .at(-1);
            return best?.basis.kind === "stated" ? best.basis.kPerDay : 0;
          };
          const edges = plan.lossPeriods.flatMap((row) => [row.fromAt, row.untilAt]).filter((at) => at !== null);
          const instants = [...new Set([...jumps.map(([at]) => at), ...edges, plan.horizonAt])]
            .filter((at) => at > plan.asOfAt && at <= plan.horizonAt)
            .sort((a, b) => a - b);
          let level =
            (plan.opening[0]?.massKg ?? 0) +
            jumps.filter(([at]) => at === plan.asOfAt).reduce((sum, [, m]) => sum + m, 0);
          let at = plan.asOfAt;
          for (const next of instants) {
            const k = rateAt(at);
            const solver = new Solver(1);
            solver.absoluteTolerance = 1e-11;
            solver.relativeTolerance = 1e-11;
            level = solver.solve((_, [m]) => [-k * (m ?? 0)], 0, [level], (next - at) / DAY).y[0] ?? Number.NaN;
            expect(Math.abs(levelBefore(segments, next) - level)).toBeLessThan(1e-8 * 5000);
            level += jumps.filter(([when]) => when === next).reduce((sum, [, massKg]) => sum + massKg, 0);
            at = next;
          }
        },
      ),
      { numRuns: runs(30) },
    ));
});
