/** A proposal through the service: what is shown of it is what is taken, and its risk is of what is shown. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { forecast } from "../../../app/forecast/forecast.ts";
import { usualAsked } from "../../../app/resupply/asked.ts";
import { proposalOf, proposedPlan } from "../../../app/resupply/proposed-plan.ts";
import { glance } from "../../../app/supply/glance.ts";
import { startTestService, type TestService } from "./test-service.ts";

const planCaseId = "baseline";
const draws = { seed: 1, runs: 640 };

let test: TestService;
beforeAll(async () => {
  test = startTestService();
  await test.service.call("ledger.demo", { path: test.path("tarn"), which: "tarn" });
});
afterAll(async () => await test.end());

const valueOf = <T>(
  reply:
    | { readonly ok: true; readonly value: T }
    | { readonly ok: false; readonly failure: { readonly message: string } },
): T => {
  if (!reply.ok) throw new Error(reply.failure.message);
  return reply.value;
};

const found = async () => {
  const { plan } = valueOf(await test.service.call("plan.view", { planCaseId }));
  const answer = valueOf(await test.service.call("resupply.plan", { ...usualAsked, planCaseId }));
  return { plan, answer, proposal: proposalOf(answer) };
};

const mutable = ({ added, craft, leftOutIds }: ReturnType<typeof proposalOf>) => ({
  added: [...added],
  craft: [...craft],
  leftOutIds: [...leftOutIds],
});

describe("a resupply proposal", () => {
  it("is shown with the levels and statuses that the case taken from it has", async () => {
    const { plan, proposal } = await found();
    const shown = forecast(proposedPlan(plan, proposal));
    valueOf(
      await test.service.call("resupply.take", {
        ...mutable(proposal),
        fromId: planCaseId,
        newId: "taken",
        name: "Taken",
      }),
    );
    const { plan: taken } = valueOf(await test.service.call("plan.view", { planCaseId: "taken" }));
    const after = forecast(taken);
    expect(after.levels).toEqual(shown.levels);
    expect(glance(taken, after).sorties.map(({ status }) => status)).toEqual(
      glance(proposedPlan(plan, proposal), shown).sorties.map(({ status }) => status),
    );
  });

  it("changes no probability where it changes nothing", async () => {
    const nothing = { added: [], craft: [], leftOutIds: [] };
    const risk = valueOf(await test.service.call("resupply.risk", { ...nothing, ...draws, planCaseId }));
    const alone = valueOf(
      await test.service.call("risk.run", { planCaseId, ...draws, untilError: null, detail: "quick" }),
    );
    expect(risk.present.allFlyWhenPlanned).toEqual(alone.allFlyWhenPlanned);
    expect(risk.proposed.allFlyWhenPlanned).toEqual(alone.allFlyWhenPlanned);
    expect(risk.difference.allFlyWhenPlanned.value).toBe(0);
  });

  it("has the difference of both probabilities as the difference of the paired runs", async () => {
    const { proposal } = await found();
    const risk = valueOf(await test.service.call("resupply.risk", { ...mutable(proposal), ...draws, planCaseId }));
    const gained = risk.proposed.allFlyWhenPlanned.value - risk.present.allFlyWhenPlanned.value;
    expect(gained).toBeGreaterThan(0.2);
    expect(risk.difference.allFlyWhenPlanned.value).toBeCloseTo(gained, 12);
  });
});
