/** Studies in a real ledger: run, kept, stale after an edit and fresh after its undo; and a folder's result taken in, or refused. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import { prepareStudy } from "../../../app/study/study.ts";
import { rowsIn } from "../../../app/study/study-table.ts";
import { composeService } from "../../../main/service/compose.ts";
import { mergeStudy } from "../../../main/study/merge.ts";
import { openStudy, planStudy } from "../../../main/study/study-folder.ts";

const service = composeService(false, () => undefined);
const folder = mkdtempSync(join(tmpdir(), "coldstock-kept-"));
const call = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
  const reply = await service.call(name, input);
  if (!reply.ok) throw new Error(reply.failure.message);
  return reply.value;
};
const asked = parseStudy({
  name: "Losses of the year",
  inputs: [{ quantity: "loss factor", values: { kind: "range", from: 0, to: 3, count: 7 } }],
  design: { kind: "grid" },
  ask: [{ kind: "supply" }, { kind: "verdict" }],
});
const ofCase = { planCaseId: "baseline", asked };
const listed = async () => (await call("study.list", {})).map(({ number, isStale }) => [number, isStale]);

beforeAll(async () => {
  await call("ledger.demo", { path: join(folder, "tarn.coldstock"), which: "tarn" });
});
afterAll(async () => {
  await service.close();
  rmSync(folder, { recursive: true });
});

const editFlight = async (): Promise<void> => {
  const { plan } = await call("plan.view", { planCaseId: "baseline" });
  const flight = plan.flights.find(({ status }) => status === "planned");
  if (flight === undefined) throw new Error("no flight");
  await call("plan.edit", {
    label: "Later",
    reason: "",
    changes: [{ op: "put", kind: "flight", value: { ...flight, arriveAt: flight.arriveAt + 60_000 } }],
  });
};

test("what was not run, or not to its end, is not kept; what was run is, from its pieces; an edit makes it stale, undo fresh", async () => {
  expect(await service.call("study.keep", ofCase)).toMatchObject({ ok: false, failure: { code: "refused" } });
  const tail = await call("study.ask", { ...ofCase, from: 4 });
  expect(rowsIn(tail.rows)).toBe(3);
  expect(await service.call("study.keep", ofCase)).toMatchObject({ ok: false, failure: { code: "refused" } });
  const whole = await call("study.ask", { ...ofCase, from: 0 });
  expect(await call("study.keep", ofCase)).toMatchObject({ number: 1, points: 7, caseName: "Baseline" });
  expect(await call("study.kept", { number: 1 })).toEqual(whole);
  expect(await listed()).toEqual([[1, false]]);
  await editFlight();
  expect(await listed()).toEqual([[1, true]]);
  // What was run of the plan as it was is not kept as one of the plan as it is.
  expect(await service.call("study.keep", ofCase)).toMatchObject({ ok: false, failure: { code: "refused" } });
  await call("plan.undo", {});
  expect(await listed()).toEqual([[1, false]]);
});

test("a folder's merged result is taken in with the rows of the window; of another state of the ledger it is refused in words", async () => {
  const { plan, readings } = await call("plan.view", { planCaseId: "baseline" });
  const base = { plan, readings, asked };
  const { folder: place } = planStudy(join(folder, "study"), base, prepareStudy(base), 3);
  const early = await service.call("study.take", { folder: place });
  expect(early).toMatchObject({ ok: false, failure: { code: "not found" } });
  await call("study.run", { folder: place, shard: null });
  await mergeStudy(openStudy(place));
  const taken = await call("study.take", { folder: place });
  expect(taken).toMatchObject({ name: "Losses of the year", points: 7 });
  const { rows } = await call("study.kept", { number: taken.number });
  expect(rows).toEqual((await call("study.ask", { ...ofCase, from: 0 })).rows);
  const before = await listed();
  await editFlight();
  const refused = await service.call("study.take", { folder: place });
  expect(refused.ok ? "" : refused.failure.message).toMatch(/another state of this ledger/);
  expect(await listed()).toHaveLength(before.length);
});
