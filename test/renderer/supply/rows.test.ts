/** The supply check as rows and sentences. */
import { expect, it } from "vitest";
import type { PlanFinding, SupplyAnswer } from "../../../app/supply/answer.ts";
import { forecastCase } from "../../../renderer/state/case-forecast.ts";
import { findingSubject } from "../../../renderer/supply/finding-subject.ts";
import { lineRows, sortieRows } from "../../../renderer/supply/sortie-rows.ts";
import { smallPlan, smallView } from "../timeline/small-plan.ts";

const plan = smallPlan();
const { glance } = forecastCase(smallView(plan));

it("until the answer is there, slack and hinges are unknown, not none", () => {
  const [row] = sortieRows(plan, glance, null);
  expect([row!.slackDays, row!.hinges]).toEqual([null, null]);
});

it("with the answer the least slack stands with its flight, and what hinges is named", () => {
  const answer: SupplyAnswer = {
    ...glance,
    holds: true,
    slack: [
      { flightId: "flight-2", sortieId: "sortie-2", slackDays: 12 },
      { flightId: "flight-3", sortieId: "sortie-2", slackDays: 3 },
    ],
    jointSlack: [],
    hinges: [{ flightId: "flight-3", sortieId: "sortie-2", becomes: "does not fly" }],
    latestDeparture: [],
  };
  const rows = sortieRows(plan, glance, answer);
  expect(rows.map(({ slackDays, slackFlight }) => [slackDays, slackFlight])).toEqual([
    ["any", ""],
    [3, "Wagon 3"],
  ]);
  expect(rows[1]!.hinges).toEqual([{ id: "flight-3", name: "Wagon 3" }]);
});

it("there is a line for every sortie and propellant, one of them limiting", () => {
  const rows = lineRows(glance);
  expect(rows).toHaveLength(4);
  expect(rows.filter(({ isLimiting }) => isLimiting)).toHaveLength(2);
});

it("each finding leads to the thing it is about", () => {
  const subject = (finding: PlanFinding) => findingSubject(plan, finding);
  expect(subject({ kind: "unused flight", flightId: "flight-2" })).toEqual({ kind: "flight", id: "flight-2" });
  expect(subject({ kind: "overdue", id: "sortie-1", at: plan.asOfAt })).toEqual({ kind: "sortie", id: "sortie-1" });
  expect(subject({ kind: "overdue", id: "flight-1", at: plan.asOfAt })).toEqual({ kind: "flight", id: "flight-1" });
});
