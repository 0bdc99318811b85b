/** Risk through the service, in real threads: run, stop, compare, keep, stale, replay; and a thread that is killed. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { threadPool } from "../../../main/service/work/thread-pool.ts";
import { startTestService, type TestService } from "./test-service.ts";
import { workerProgram } from "../../suite/programs.ts";

const planCaseId = "baseline";
const asked = { planCaseId, seed: 1, runs: 6400, untilError: null, detail: "full" } as const;

let threads: TestService;
let inline: TestService;
beforeAll(async () => {
  threads = startTestService(threadPool(workerProgram, true));
  inline = startTestService();
  for (const test of [threads, inline])
    await test.service.call("ledger.demo", { path: test.path("tarn"), which: "tarn" });
});
afterAll(async () => {
  await threads.end();
  await inline.end();
});

const valueOf = <T>(
  reply:
    | { readonly ok: true; readonly value: T }
    | { readonly ok: false; readonly failure: { readonly message: string } },
): T => {
  if (!reply.ok) throw new Error(reply.failure.message);
  return reply.value;
};

/** States a slip of every flight, so that the plan changes. */
const state = async (test: TestService, meanDays: number) =>
  valueOf(
    await test.service.call("plan.edit", {
      label: "State a slip",
      reason: "",
      changes: [
        {
          op: "put",
          kind: "riskInput",
          value: {
            id: "baseline.risk-slip",
            planCaseId,
            uncertainty: {
              quantity: "flight slip",
              of: { kind: "every" },
              law: { kind: "exponential", noneShare: 0.4, meanDays },
            },
            source: "stated",
            note: "",
          },
        },
      ],
    }),
  );

describe("a run", () => {
  it("gives the same answer in threads and without, and says what is assumed", async () => {
    const here = valueOf(await inline.service.call("risk.run", asked));
    const there = valueOf(await threads.service.call("risk.run", asked));
    expect(JSON.stringify(there)).toBe(JSON.stringify(here));
    expect(there).toMatchObject({ replications: 6400, end: "number reached", planCaseId });
    const inputs = valueOf(await inline.service.call("risk.inputs", { planCaseId }));
    expect(there.inputs).toEqual({
      count: inputs.length,
      assumed: inputs.filter(({ source }) => source === null).length,
    });
    expect(there.bands.length).toBeGreaterThan(0);
  });

  it("refuses what cannot be asked, with the field", async () => {
    for (const [over, field] of [
      [{ runs: 0 }, "runs"],
      [{ seed: -1 }, "seed"],
      [{ untilError: 0 }, "untilError"],
      [{ detail: "some" }, "detail"],
    ] as const) {
      const reply = await inline.service.call("risk.run", { ...asked, ...over } as never);
      expect(reply).toMatchObject({ ok: false, failure: { code: "invalid input", field } });
    }
    expect(await inline.service.call("risk.run", { ...asked, planCaseId: "nowhere" })).toMatchObject({
      ok: false,
      failure: { code: "not found" },
    });
  });
});

it("a case beside itself does not differ, beside another it does", async () => {
  const compare = { seed: 1, runs: 3200 };
  const same = valueOf(await threads.service.call("risk.compare", { planCaseId, compareId: planCaseId, ...compare }));
  expect(same.allFly.value).toBe(0);
  const { planCases } = valueOf(await threads.service.call("ledger.info", {}));
  const other = planCases.find(({ id }) => id !== planCaseId)?.id ?? "";
  const different = valueOf(await threads.service.call("risk.compare", { planCaseId, compareId: other, ...compare }));
  expect(different.sorties.length).toBeGreaterThan(0);
  expect(different.sorties.some(({ flies }) => flies.value !== 0)).toBe(true);
});

it("what it hangs on names inputs and flights of the plan", async () => {
  const causes = valueOf(await threads.service.call("risk.causes", { planCaseId, seed: 1, runs: 640 }));
  const { plan } = valueOf(await threads.service.call("plan.view", { planCaseId }));
  expect(causes.isWhole).toBe(true);
  expect(causes.drivers.length).toBeGreaterThan(3);
  const flights = new Set(plan.flights.map(({ id }) => id));
  expect(causes.dropOne.every(({ flightIds: [id] }) => flights.has(id ?? ""))).toBe(true);
});

it("a run is kept, grows stale with an edit, is itself again when that is undone, and replays to the byte", async () => {
  const { service } = inline;
  const kept = valueOf(await service.call("risk.keep", asked));
  expect(kept).toMatchObject({ number: 1, seed: 1, replications: 6400, planCaseId, author: "tester" });
  const stale = async () => valueOf(await service.call("risk.runs", {})).map(({ isStale }) => isStale);
  expect(await stale()).toEqual([false]);
  expect(valueOf(await service.call("risk.replay", { number: 1 }))).toEqual({ number: 1, isSame: true, remark: null });
  await state(inline, 12);
  expect(await stale()).toEqual([true]);
  expect(valueOf(await service.call("risk.replay", { number: 1 })).remark).toMatch(/no longer those of this run/);
  const answer = valueOf(await service.call("risk.kept", { number: 1 }));
  expect(answer).toMatchObject({ replications: 6400 });
  await service.call("plan.undo", {});
  expect(await stale()).toEqual([false]);
  expect(valueOf(await service.call("risk.delete", { number: 1 }))).toEqual({ number: 1 });
  expect(valueOf(await service.call("risk.runs", {}))).toEqual([]);
});
