/** The sentences at the top of the inspector. */
import { expect, it } from "vitest";
import type { SortieSupply, SupplyAnswer } from "../../../app/supply/answer.ts";
import { tightestSlack } from "../../../app/supply/tightest-slack.ts";
import { flightConsequence, sortieConsequence } from "../../../renderer/inspector/consequence.ts";
import { forecastCase } from "../../../renderer/state/case-forecast.ts";
import { day, smallPlan, smallView } from "../timeline/small-plan.ts";

const plan = smallPlan();
const { forecast, glance } = forecastCase(smallView(plan));
const answer: SupplyAnswer = {
  ...glance,
  holds: true,
  slack: [
    { flightId: "flight-1", sortieId: "sortie-1", slackDays: "any" },
    { flightId: "flight-2", sortieId: "sortie-1", slackDays: 6.5 },
    { flightId: "flight-3", sortieId: "sortie-1", slackDays: 9 },
  ],
  jointSlack: [],
  hinges: [{ sortieId: "sortie-1", flightId: "flight-1", becomes: "does not fly" }],
  latestDeparture: [
    { flightId: "flight-1", at: day(16) },
    { flightId: "flight-2", at: null },
    { flightId: "flight-3", at: day(62) },
  ],
};
const about = (id: string) =>
  flightConsequence(
    plan,
    plan.flights.find((row) => row.id === id)!,
    forecast.flights.find(({ flightId }) => flightId === id),
    answer,
  );

it("a flight says what it brings, how far it can slip, and what hinges on it", () =>
  expect(about("flight-1")).toEqual([
    "Brings 3.00\u202ft of hydrogen and 12.00\u202ft of oxygen on 2031-01-21.",
    "It can slip by 6\u00a0days at most, to 2031-01-17.",
    "Sortie 1 hinges on it.",
  ]));

it("any slip, or none, is said plainly", () => {
  expect(about("flight-2")).toContain("It can slip to the end of the forecast with every sortie as it stands.");
  expect(about("flight-3")).toContain("It cannot slip at all.");
});

it("while slack is being worked out nothing is said of it", () => {
  const flight = plan.flights[0]!;
  expect(flightConsequence(plan, flight, forecast.flights[0], null)).toHaveLength(1);
});

it("a lost flight says that the forecast leaves it out", () =>
  expect(flightConsequence(plan, { ...plan.flights[0]!, status: "lost" }, undefined, answer)).toEqual([
    "This flight has been recorded as lost; the forecast leaves it out.",
  ]));

const short: SortieSupply = {
  sortieId: "sortie-1",
  sortieKey: "sortie-1",
  name: "Sortie 1",
  plannedAt: day(40),
  loadedAt: null,
  status: "short",
  outcome: "stands down",
  landerIsAway: false,
  lines: [
    {
      propellantId: "hydrogen",
      availableKg: 2100,
      requiredKg: 4000,
      marginOverReserveKg: -2600,
      marginPercent: -65,
      status: "short",
      missingKg: 1900,
    },
    {
      propellantId: "oxygen",
      availableKg: 21_000,
      requiredKg: 20_000,
      marginOverReserveKg: -600,
      marginPercent: -3,
      status: "thin",
      missingKg: 0,
    },
  ],
  limitingPropellantId: "hydrogen",
  firstPossibleAt: day(75),
};

it("a short sortie says what is missing, when it could load, what it hinges on, and the least slack", () =>
  expect(sortieConsequence(plan, short, undefined, answer)).toEqual([
    "It stands down.",
    "Hydrogen: 1.90\u202ft is missing to load.",
    "Oxygen: \u2212600\u202fkg (\u22123.0\u202f%), so it dips into the reserve.",
    "Earliest loading if only this sortie moves: 2031-03-17.",
    "It hinges on Wagon 1.",
    "Wagon 2 (03-02) can slip by 6.5\u00a0days at most.",
  ]));

it("the tightest slack is the least number; without a number there is none", () => {
  expect(tightestSlack(answer, "sortie-1")).toEqual({ flightId: "flight-2", slackDays: 6.5 });
  expect(tightestSlack(answer, "sortie-2")).toBeNull();
});
