/** One hull, one place: flights of one tanker, worked by hand. Berths last 2 days. */
import { expect, it } from "vitest";
import { check } from "../../../app/supply/check.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { day, flight, smallPlan, sortie } from "../forecast/small-plan.ts";

const withTurnaround = (turnaroundDays: number, flights: readonly Entity<"flight">[]): PlanSnapshot => {
  const plan = smallPlan({ opening: { a: 1000 }, flights, sorties: [sortie("s", 60, 8000)] });
  return { ...plan, craftClasses: plan.craftClasses.map((row) => ({ ...row, turnaroundDays })) };
};
const findings = (plan: PlanSnapshot) =>
  check(plan).findings.filter(({ kind }) => kind.startsWith("hull") || kind.startsWith("turnaround"));

it("a second flight of a hull that is under way makes no sortie supplied: it breaks the plan", () => {
  const alone = withTurnaround(0, [flight("f", 10, 20, 4000)]);
  expect(check(alone).verdict.word).toBe("No-go");
  const both = check(withTurnaround(0, [flight("f", 10, 20, 4000), flight("g", 12, 22, 4000)]));
  expect(both.sorties[0]?.status).toBe("supplied");
  expect(both.verdict.word).toBe("No-go");
  expect(both.holds).toBe(false);
  expect(both.verdict.sentence).toBe(
    "The sortie can load, but the plan cannot be flown. Packhorse 1 cannot fly f and g at once: it leaves the port on 2031-01-23 00:00 UTC and is to depart on 2031-01-13 00:00 UTC.",
  );
});

it("a hull that departs as it leaves the port overlaps nothing", () =>
  expect(findings(withTurnaround(0, [flight("f", 10, 20, 4000), flight("g", 22, 32, 4000)]))).toEqual([]));

it("turnaround is counted from the end of the berth, to the second", () => {
  const flights = (departDay: number) => [flight("f", 10, 20, 4000), flight("g", departDay, departDay + 5, 4000)];
  expect(findings(withTurnaround(7, flights(29)))).toEqual([]);
  expect(findings(withTurnaround(7, flights(28)))).toEqual([
    {
      kind: "turnaround not kept",
      craftId: "packhorse-1",
      flightIds: ["f", "g"],
      readyAt: day(29),
      departAt: day(28),
    },
  ]);
});

it("a long flight is looked at beyond the one that departs next", () => {
  const kinds = findings(
    withTurnaround(0, [flight("f", 10, 50, 4000), flight("g", 12, 14, 1), flight("h", 40, 45, 4000)]),
  ).map((finding) => ("flightIds" in finding ? finding.flightIds.join() : ""));
  expect(kinds).toEqual(["f,g", "f,h"]);
});

it("what is over is not complained of, but what follows it is; cancelled flights keep no hull busy", () => {
  const arrived = flight("f", -10, -1, 4000, { status: "arrived", berthDays: 5 });
  const before = flight("e", -9, -2, 1, { status: "arrived" });
  expect(findings(withTurnaround(0, [before, arrived]))).toEqual([]);
  expect(findings(withTurnaround(0, [arrived, flight("g", 2, 8, 1)])).map(({ kind }) => kind)).toEqual([
    "hull overlap",
  ]);
  const cancelled = flight("f", 1, 30, 4000, { status: "cancelled" });
  expect(findings(withTurnaround(0, [cancelled, flight("g", 2, 8, 1)]))).toEqual([]);
});

it("a lost hull does not fly again, however long after", () => {
  const lost = flight("f", -10, -1, 4000, { status: "lost" });
  const kinds = findings(withTurnaround(0, [lost, flight("g", 2, 8, 1), flight("h", 100, 110, 1)]));
  expect(kinds.map(({ kind }) => kind)).toEqual(["hull was lost", "hull was lost"]);
});
