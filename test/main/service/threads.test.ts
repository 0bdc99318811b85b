/** Long computations in worker threads: the same answer, progress, stopping, and commands that do not wait. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { inlineRunner, isStopped, type WorkRunner } from "../../../main/service/work/runner.ts";
import { threadPool } from "../../../main/service/work/thread-pool.ts";
import type { ServiceEvent } from "../../../main/service/service.ts";
import { startTestService, type TestService } from "./test-service.ts";
import { workerProgram } from "../../suite/programs.ts";

let test: TestService;
let plan: PlanSnapshot;
/** The same plan with so many flights that the check takes its time. */
let heavy: PlanSnapshot;

beforeAll(async () => {
  test = startTestService(threadPool(workerProgram, true));
  await test.service.call("ledger.demo", { path: test.path("tarn"), which: "tarn" });
  const view = await test.service.call("plan.view", { planCaseId: "baseline" });
  if (!view.ok) throw new Error(view.failure.message);
  ({ plan } = view.value);
  const planned = plan.flights.filter((flight) => flight.status === "planned");
  const more = Array.from({ length: 120 }, (_, i) => {
    const flight = planned[i % planned.length]!;
    const later = i * 3_600_000;
    return {
      ...flight,
      id: `more-${i}`,
      key: `more-${i}`,
      departAt: flight.departAt + later,
      arriveAt: flight.arriveAt + later,
    };
  });
  heavy = { ...plan, flights: [...plan.flights, ...more] };
});
afterAll(() => test.end());

const check = async (runner: WorkRunner, of: PlanSnapshot, stop: AbortSignal, tell: () => void) =>
  await runner.run({ name: "supply.check", base: of, baseKey: "plan", asked: null, lane: "interactive" }, stop, tell);
const silent = (): void => undefined;

describe("a thread", () => {
  it("gives the answer that the function gives here", async () => {
    const runner = threadPool(workerProgram, false);
    const { signal } = new AbortController();
    expect(await check(runner, plan, signal, silent)).toEqual(await check(inlineRunner(), plan, signal, silent));
    await runner.close();
  });

  it("stops a check that nobody waits for any more, and takes the next", async () => {
    const runner = threadPool(workerProgram, true);
    const stop = new AbortController();
    const running = check(runner, heavy, stop.signal, () => stop.abort());
    await expect(running).rejects.toSatisfy(isStopped);
    const next = await check(runner, heavy, new AbortController().signal, silent);
    expect(next.sorties.length).toBeGreaterThan(0);
    await runner.close();
  });
});

describe("a check through the service", () => {
  it("tells progress under its job id, and can be cancelled under it", async () => {
    const told: ServiceEvent[] = [];
    const stopListening = test.service.listen((event) => {
      told.push(event);
      if (event.event === "progress") void test.service.call("job.cancel", { jobId: "mine" });
    });
    const changes = heavy.flights
      .filter((flight) => flight.id.startsWith("more-"))
      .map((value) => ({ op: "put", kind: "flight", value }) as const);
    const edit = await test.service.call("plan.edit", { label: "Many flights", reason: "", changes });
    expect(edit.ok).toBe(true);
    const check = await test.service.call("supply.check", { planCaseId: "baseline" }, "mine");
    stopListening();
    expect(check).toMatchObject({ ok: false, failure: { code: "cancelled" } });
    expect(told.filter((event) => event.event === "progress")[0]?.payload).toMatchObject({ jobId: "mine" });
    expect(await test.service.call("job.cancel", { jobId: "mine" })).toEqual({
      ok: true,
      value: { wasRunning: false },
    });
  });

  it("does not hold up commands: they are answered while it runs", async () => {
    const order: string[] = [];
    const check = test.service.call("supply.check", { planCaseId: "baseline" }).then(() => order.push("check"));
    await test.service.call("plan.history", { offset: 0, limit: 1 }).then(() => order.push("history"));
    await test.service.call("record.loss", { flightId: "no-such", at: 0, note: "" }).then(() => order.push("command"));
    await check;
    expect(order).toEqual(["history", "command", "check"]);
  });

  it("is kept across an edit of something else, and found again by an undo", async () => {
    const counted = async (): Promise<{ told: number; reply: unknown }> => {
      let count = 0;
      const hear = test.service.listen(({ event }) => (count += event === "progress" ? 1 : 0));
      const reply = await test.service.call("supply.check", { planCaseId: "baseline" }, "kept");
      hear();
      return { told: count, reply };
    };
    const first = await counted();
    const other = await test.service.call("plan.view", { planCaseId: "extra-packhorse" });
    const flight = other.ok ? other.value.plan.flights.find(({ status }) => status === "planned") : undefined;
    const elsewhere = { ...flight!, arriveAt: flight!.arriveAt + 60_000 };
    const label = "Move";
    const put = (value: typeof elsewhere) => ({
      label,
      reason: "",
      changes: [{ op: "put", kind: "flight", value } as const],
    });
    expect((await test.service.call("plan.edit", put(elsewhere))).ok).toBe(true);
    const kept = await counted();
    expect(kept.told).toBe(0);
    expect(kept.reply).toEqual(first.reply);
    const here = plan.flights.find(({ status }) => status === "planned")!;
    await test.service.call("plan.edit", put({ ...here, arriveAt: here.arriveAt + 86_400_000 }));
    const anew = await counted();
    expect(anew.told).toBeGreaterThan(0);
    await test.service.call("plan.undo", {});
    const again = await counted();
    expect(again.told).toBe(0);
    expect(again.reply).toEqual(first.reply);
  });

  it("is superseded by a newer question of the same asker", async () => {
    const older = test.service.call("supply.check", { planCaseId: "baseline" }, "view#1");
    const another = test.service.call("supply.check", { planCaseId: "extra-packhorse" }, "other#1");
    await test.service.call("plan.edit", {
      label: "Rename",
      reason: "",
      changes: [{ op: "put", kind: "flight", value: { ...plan.flights.at(-1)!, name: "Renamed" } }],
    });
    const newer = test.service.call("supply.check", { planCaseId: "baseline" }, "view#2");
    expect((await newer).ok).toBe(true);
    expect((await another).ok).toBe(true);
    const reply = await older;
    // It had the answer already, or it was stopped.
    if (!reply.ok) expect(reply.failure.code).toBe("cancelled");
  });

  it("refuses a job id that is in use, or is none", async () => {
    const first = test.service.call("supply.check", { planCaseId: "extra-packhorse" }, "twice");
    expect(await test.service.call("ledger.info", {}, "twice")).toMatchObject({ failure: { field: "jobId" } });
    for (const jobId of ["", "x".repeat(81), 5, {}])
      expect(await test.service.dispatch("ledger.info", {}, jobId)).toMatchObject({ failure: { field: "jobId" } });
    expect((await first).ok).toBe(true);
  });
});

describe("a change", () => {
  it("is told once, with the revision and the file, and a query tells none", async () => {
    const told: ServiceEvent[] = [];
    const stopListening = test.service.listen((event) => told.push(event));
    await test.service.call("ledger.info", {});
    const after = await test.service.call("ledger.asOf", { asOfAt: 1940000000000 });
    await test.service.call("plan.undo", {});
    stopListening();
    const { revision, path } = after.ok ? after.value : { revision: NaN, path: "" };
    expect(told).toEqual([
      { event: "changed", payload: { revision, path } },
      { event: "changed", payload: { revision: revision + 1, path } },
    ]);
  });
});
