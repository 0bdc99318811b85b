/** A proposal taken flight by flight into the plan case itself: one step, undone as one; what is over cannot be taken. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { usualAsked } from "../../../app/resupply/asked.ts";
import { startTestService, type TestService } from "./test-service.ts";

const planCaseId = "baseline";
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
const planNow = async () => valueOf(await test.service.call("plan.view", { planCaseId })).plan;
const shortSorties = async (): Promise<number> =>
  valueOf(await test.service.call("supply.check", { planCaseId })).sorties.filter(({ status }) => status === "short")
    .length;

it("takes the added flight with the hull it flies, and undoes it", async () => {
  const before = await planNow();
  expect(await shortSorties()).toBe(1);
  const { changes, craft } = valueOf(await test.service.call("resupply.plan", { ...usualAsked, planCaseId }));
  const added = changes.filter(({ kind }) => kind === "added").map(({ flight }) => flight);
  valueOf(await test.service.call("resupply.takeHere", { planCaseId, added, craft: [...craft], leftOutIds: [] }));
  expect((await planNow()).flights.length).toBe(before.flights.length + 1);
  expect(await shortSorties()).toBe(0);
  valueOf(await test.service.call("plan.undo", {}));
  expect(await planNow()).toEqual(before);
});

it("leaves out and moves planned flights, with what is stated of one that goes", async () => {
  const before = await planNow();
  const planned = before.flights.filter(({ status }) => status === "planned");
  const [gone, later] = [planned[0]!, planned[1]!];
  const riskInput = {
    id: "of-gone",
    planCaseId,
    uncertainty: {
      quantity: "flight loss",
      of: { kind: "flight", flightId: gone.id },
      law: { kind: "probability", probability: 0.02 },
    },
    source: "stated",
    note: "",
  };
  const stated = await test.service.call("plan.edit", {
    label: "State a loss",
    reason: "",
    changes: [{ op: "put", kind: "riskInput", value: riskInput }],
  } as never);
  expect(stated.ok).toBe(true);
  const moved = [{ flightId: later.id, departAt: later.departAt + 86_400_000, arriveAt: later.arriveAt + 86_400_000 }];
  const chosen = { planCaseId, added: [], craft: [], leftOutIds: [gone.id], moved };
  valueOf(await test.service.call("resupply.takeHere", chosen));
  const after = await planNow();
  expect(after.flights.some(({ id }) => id === gone.id)).toBe(false);
  expect(after.flights.find(({ id }) => id === later.id)?.arriveAt).toBe(later.arriveAt + 86_400_000);
  expect(after.riskInputs.some(({ id }) => id === "of-gone")).toBe(false);
  // As a case of its own, too.
  const copy = { fromId: planCaseId, newId: "without", name: "Without", added: [], craft: [], leftOutIds: [later.id] };
  valueOf(await test.service.call("resupply.take", copy));
  const { plan } = valueOf(await test.service.call("plan.view", { planCaseId: "without" }));
  expect(plan.flights.some(({ key }) => key === later.key)).toBe(false);
});

it("refuses what is over, what there is not, and nothing at all", async () => {
  const nothing = { planCaseId, added: [], craft: [], leftOutIds: [] };
  const said = async (over: object): Promise<string> => {
    const reply = await test.service.call("resupply.takeHere", { ...nothing, ...over });
    return reply.ok ? "taken" : reply.failure.message;
  };
  expect(await said({})).toMatch(/nothing to take/);
  expect(await said({ leftOutIds: ["nobody"] })).toMatch(/no flight nobody/);
  const arrived = (await planNow()).flights.find(({ status }) => status !== "planned" && status !== "firm");
  if (arrived !== undefined) expect(await said({ leftOutIds: [arrived.id] })).toMatch(/not planned any more/);
  expect(await said({ planCaseId: "elsewhere", leftOutIds: ["x"] })).toMatch(/no plan case elsewhere/);
});
