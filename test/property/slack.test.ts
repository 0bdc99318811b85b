/** The slack search against a scan of every single minute, and against edits of the plan instead of the engine's slips. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { compile } from "../../app/forecast/compile.ts";
import { createEngine } from "../../app/forecast/propagate.ts";
import { check } from "../../app/supply/check.ts";
import { firstWorse, turningInstants } from "../../app/supply/slack-search.ts";
import { randomPlan } from "./random-plan.ts";

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
        const base = engine.go().sortieStatus.slice();
        const most = Math.floor((plan.horizonAt - (compiled.flightArriveAt[flight] ?? 0)) / MINUTE);
        fc.pre(compiled.flightIds.length > 0 && most > 1);
        const found = firstWorse(engine, flight, turningInstants(compiled), base);
        const scanned = new Float64Array(base.length).fill(Infinity);
        const scanner = createEngine(compiled);
        for (let minute = 1; minute <= most; minute += 1) {
          scanner.input.flightSlipMs[flight] = minute * MINUTE;
          scanner.go().sortieStatus.forEach((status, sortie) => {
            if (status > base[sortie]! && scanned[sortie] === Infinity) scanned[sortie] = minute;
          });
        }
        expect([...found]).toEqual([...scanned]);
      },
    ),
    { numRuns: 400 },
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
        return createEngine(moved).go().sortieStatus[moved.sortieIds.indexOf(sortieId)] ?? 9;
      };
      for (const { flightId, sortieId, slackDays } of report.slack) {
        if (slackDays === "any") continue;
        const minutes = Math.round(slackDays * 1440);
        const now = status(flightId, sortieId, 0);
        expect(status(flightId, sortieId, minutes)).toBeLessThanOrEqual(now);
        expect(status(flightId, sortieId, minutes + 1)).toBeGreaterThan(now);
      }
    }),
    { numRuns: 150 },
  ));
