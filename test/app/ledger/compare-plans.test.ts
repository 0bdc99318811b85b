/** What differs between two plan cases. */
import { expect, it } from "vitest";
import { comparePlans } from "../../../app/ledger/compare-plans.ts";
import { marginOf, statusPairs } from "../../../renderer/plan-cases/compare-statuses.ts";
import { forecastCase } from "../../../renderer/state/case-forecast.ts";
import { day, smallPlan, smallView } from "../../renderer/timeline/small-plan.ts";

const before = smallPlan();
const told = (after: typeof before) =>
  comparePlans(before, after).map(({ name, change, words }) => `${name} ${change}: ${words}`);

it("a plan does not differ from itself, nor by ids and notes", () => {
  const copied = smallPlan({
    flights: before.flights.map((flight) => ({
      ...flight,
      id: `copy.${flight.id}`,
      planCaseId: "copy",
      note: "moved?",
    })),
  });
  expect(told(before)).toEqual([]);
  expect(told(copied)).toEqual([]);
});

it("a flight moved, one gone, one new, a sortie moved: in order of time", () => {
  const [first, second] = before.flights;
  const after = smallPlan({
    flights: [
      { ...first!, departAt: first!.departAt + 4 * 86_400_000, arriveAt: first!.arriveAt + 4 * 86_400_000 },
      { ...second!, loads: [{ propellantId: "oxygen", loadedKg: 9000 }] },
      { ...first!, id: "new", key: "flight-9", name: "Wagon 9", departAt: day(90), arriveAt: day(100) },
    ],
    sorties: [before.sorties[0]!, { ...before.sorties[1]!, loadAt: day(109), returnAt: day(123) }],
  });
  expect(told(after)).toEqual([
    "Wagon 1 moved: departs 2031-01-15 instead of 2031-01-11, 4\u00a0days later",
    "Wagon 2 changed: loads 9.00\u202ft oxygen instead of 3.00\u202ft hydrogen, 12.00\u202ft oxygen",
    "Wagon 3 removed: not here; there on 2031-03-04",
    "Wagon 9 added: only here, on 2031-04-01",
    "Sortie 2 moved: loads 2031-04-20 instead of 2031-04-21, 1\u00a0day earlier",
  ]);
});

it("the policy and the end of the forecast count", () =>
  expect(told(smallPlan({ planCase: { ...before.planCase, shortPolicy: "wait", horizonAt: day(230) } }))).toEqual([
    "Baseline changed: a short sortie waits",
    "Baseline changed: the forecast ends 2031-08-19 instead of 2031-07-20, 30\u00a0days later",
  ]));

it("sorties are paired by their keys, also one that only one case has", () => {
  const here = forecastCase(smallView(before)).glance;
  const there = forecastCase(smallView(smallPlan({ sorties: [before.sorties[1]!] }))).glance;
  const pairs = statusPairs(here, there);
  expect(pairs.map(({ name, here: a, there: b }) => [name, a !== null, b !== null])).toEqual([
    ["Sortie 1", true, false],
    ["Sortie 2", true, true],
  ]);
  expect(marginOf(pairs[0]!.there)).toBeNull();
});

it("a load, an arrival and a berth that differ are all told, however little and whatever else moves", () => {
  const [first] = before.flights;
  const after = smallPlan({
    flights: [
      {
        ...first!,
        departAt: first!.departAt + 86_400_000,
        arriveAt: first!.arriveAt + 3 * 86_400_000,
        berthDays: first!.berthDays + 1,
        loads: first!.loads.map((load, n) => (n === 0 ? { ...load, loadedKg: load.loadedKg + 0.4 } : load)),
      },
      ...before.flights.slice(1),
    ],
  });
  const [difference, ...others] = comparePlans(before, after);
  expect(others).toEqual([]);
  expect(difference?.words.split("; ").map((part) => part.split(" ")[0])).toEqual([
    "departs",
    "arrives",
    "loads",
    "stays",
  ]);
});

it("how long a campaign waits, and what tanks lose, count", () => {
  const campaigns = before.campaigns.map((row) => ({ ...row, holdLimitDays: row.holdLimitDays + 5 }));
  expect(told({ ...before, campaigns }).join()).toMatch(/wait \d+ days at most instead of \d+/);
  expect(told({ ...before, lossPeriods: before.lossPeriods.slice(1) })).toEqual([
    "Baseline changed: loss periods of tanks differ",
  ]);
});
