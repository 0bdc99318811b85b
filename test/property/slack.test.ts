/** The slack search against a scan of every single minute, and against edits of the plan instead of the engine's slips. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { compile } from "../../app/forecast/compile.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { check } from "../../app/supply/check.ts";
import { fatesOf } from "../../app/supply/fate.ts";
import { firstWorse, firstWorseTogether, turningInstants } from "../../app/supply/slack-search.ts";
import { randomPlan } from "./random-plan.ts";
import { runs } from "../suite/runs.ts";

const MINUTE = 60_000;

it("finds for every flight and sortie the first minute at which a scan of all minutes sees it get worse", () =>
  fc.assert(
    fc.property(
      randomPlan({ days: 4, flights: 4, sorties: 4, constantLoss: true, betweenDepots: true }),
      fc.nat(3),
      (plan, pick) => {
        const compiled = compile(plan);
        const flight = pick % Math.max(1, compiled.flightIds.length);
        const engine = createEngine(compiled);
        const base = fatesOf(engine.go());
        const most = Math.floor((plan.horizonAt - (compiled.flightArriveAt[flight] ?? 0)) / MINUTE);
        fc.pre(compiled.flightIds.length > 0 && most > 1);
        const found = firstWorse(engine, flight, turningInstants(compiled), base);
        const scanned = new Float64Array(base.length).fill(Infinity);
        const scanner = createEngine(compiled);
        for (let minute = 1; minute <= most; minute += 1) {
          scanner.input.flightSlipMs[flight] = minute * MINUTE;
          fatesOf(scanner.go()).forEach((fate, sortie) => {
            if (fate > base[sortie]! && scanned[sortie] === Infinity) scanned[sortie] = minute;
          });
        }
        expect([...found]).toEqual([...scanned]);
      },
    ),
    { numRuns: runs(120) },
  ));

it("a plan moved by the slack that the check reports keeps its status, and one minute more does not", () =>
  fc.assert(
    fc.property(randomPlan({ days: 20, flights: 6, sorties: 4, constantLoss: true, betweenDepots: false }), (plan) => {
      const report = check(plan);
      const status = (flightId: string, sortieId: string, minutes: number) => {
        const flights = plan.flights.map((row) =>
          row.id === flightId
            ? { ...row, departAt: row.departAt + minutes * MINUTE, arriveAt: row.arriveAt + minutes * MINUTE }
            : row,
        );
        const moved = compile({ ...plan, flights });
        return fatesOf(createEngine(moved).go())[moved.sortieIds.indexOf(sortieId)] ?? 9;
      };
      for (const { flightId, sortieId, slackDays } of report.slack) {
        if (slackDays === "any") continue;
        const minutes = Math.round(slackDays * 1440);
        const now = status(flightId, sortieId, 0);
        expect(status(flightId, sortieId, minutes)).toBeLessThanOrEqual(now);
        expect(status(flightId, sortieId, minutes + 1)).toBeGreaterThan(now);
      }
    }),
    { numRuns: runs(50) },
  ));

it("all flights together: the first minute at which a scan of all minutes sees any sortie fare worse", () =>
  fc.assert(
    fc.property(randomPlan({ days: 4, flights: 4, sorties: 4, constantLoss: true, betweenDepots: true }), (plan) => {
      const compiled = compile(plan);
      const flights = [...compiled.flightIds.keys()].filter((n) => compiled.flightArriveAt[n]! <= compiled.horizonAt);
      fc.pre(flights.length > 1);
      const engine = createEngine(compiled);
      const base = fatesOf(engine.go());
      const most = Math.floor((plan.horizonAt - Math.min(...flights.map((n) => compiled.flightArriveAt[n]!))) / MINUTE);
      const found = firstWorseTogether(engine, flights, turningInstants(compiled), base);
      const scanner = createEngine(compiled);
      let scanned = Infinity;
      for (let minute = 1; minute <= most && scanned === Infinity; minute += 1) {
        for (const flight of flights) scanner.input.flightSlipMs[flight] = minute * MINUTE;
        if (fatesOf(scanner.go()).some((fate, sortie) => fate > base[sortie]!)) scanned = minute;
      }
      expect(found).toBe(scanned);
    }),
    { numRuns: runs(80) },
  ));
