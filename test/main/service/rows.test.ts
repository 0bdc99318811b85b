/** Rows in and out through the service: one step that can be undone, all or nothing, remembered columns, a ledger that moves. */
import { afterEach, beforeEach, expect, test } from "vitest";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import { noMapping } from "../../../app/ledger/column-mapping.ts";
import { inlineRunner, type WorkRunner } from "../../../main/service/work/runner.ts";
import { startTestService, type TestService } from "./test-service.ts";

let rig: TestService;
/** Called while a file is being read. */
let meanwhile: () => Promise<void>;

const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
  const reply = await rig.service.call(name, input);
  if (!reply.ok) throw new Error(reply.failure.message);
  return reply.value;
};
const question = (text: string) => ({
  kind: null,
  planCaseId: "baseline",
  source: { fileName: "rows.csv", text },
  sheet: null,
  mapping: noMapping,
});
const flights = async () => (await ask("plan.view", { planCaseId: "baseline" })).plan.flights;

beforeEach(async () => {
  meanwhile = () => Promise.resolve();
  const inline = inlineRunner();
  const runner: WorkRunner = {
    ...inline,
    run: async (...task) => {
      await meanwhile();
      return await inline.run(...task);
    },
  };
  rig = startTestService(runner);
  await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
});
afterEach(async () => await rig.end());

const move = "name,arrives,departs\nPackhorse 9,2032-02-01,2032-01-20\nDrover 5,2032-05-01,2031-12-01\n";

test("many rows are one step, and one undo takes all of them back", async () => {
  const before = await flights();
  const taken = await ask("rows.import", { ...question(move), goodRowsOnly: false });
  expect(taken).toMatchObject({ isTaken: true, changedRows: 2 });
  expect((await flights()).find(({ name }) => name === "Drover 5")?.arriveAt).toBe(Date.UTC(2032, 4, 1));
  expect((await ask("ledger.info", {})).undoLabel).toBe("Bring in 2 changed flights");
  await ask("plan.undo", {});
  expect(await flights()).toEqual(before);
});

test("one bad row keeps all out, unless the good ones alone are asked for", async () => {
  const bad = `${move}Nobody,soon,\n`;
  expect(await ask("rows.import", { ...question(bad), goodRowsOnly: false })).toMatchObject({ isTaken: false });
  expect((await ask("ledger.info", {})).undoLabel).toBeNull();
  expect(await ask("rows.import", { ...question(bad), goodRowsOnly: true })).toMatchObject({
    isTaken: true,
    changedRows: 2,
  });
});

test("a file with an open question is never taken", async () => {
  const taken = await ask("rows.import", {
    ...question("name,arrives,hydrogn kg\nPackhorse 9,2032-02-01,1\n"),
    goodRowsOnly: true,
  });
  expect(taken).toMatchObject({ isTaken: false, questions: [expect.stringMatching(/hydrogn kg/)] });
  expect((await ask("ledger.info", {})).undoLabel).toBeNull();
});

test("columns are remembered over closing the ledger, and are no step", async () => {
  const text = "Who,When,Wind\nPackhorse 9,2032-02-01,7\n";
  const mapping = {
    ...noMapping,
    columns: [
      { heading: "Who", to: "name", unit: null },
      { heading: "When", to: "arrives", unit: null },
      { heading: "Wind", to: null, unit: null },
    ],
  };
  const asked = { ...question(text), kind: "flights" as const };
  expect((await ask("rows.preview", asked)).questions.length).toBeGreaterThan(0);
  await ask("rows.import", { ...asked, mapping, goodRowsOnly: false });
  await ask("ledger.open", { path: rig.path("tarn") });
  expect((await ask("plan.history", { offset: 0, limit: 10 })).length).toBe(1);
  const again = await ask("rows.preview", asked);
  expect(again).toMatchObject({ questions: [], unchangedRows: 1 });
  expect(again.columns.map(({ to, decision }) => [to, decision])).toEqual([
    ["name", "remembered"],
    ["arrives", "remembered"],
    [null, "remembered"],
  ]);
});

test("a ledger that moves while the file is read is read against again; what it becomes is what was checked", async () => {
  let isFirst = true;
  meanwhile = async () => {
    if (!isFirst) return;
    isFirst = false;
    const flight = (await flights()).find(({ name }) => name === "Packhorse 9")!;
    const value = { ...flight, note: "moved meanwhile" };
    await ask("plan.edit", { label: "Note", reason: "", changes: [{ op: "put", kind: "flight", value }] });
  };
  await ask("rows.import", { ...question(move), goodRowsOnly: false });
  const flight = (await flights()).find(({ name }) => name === "Packhorse 9");
  expect(flight).toMatchObject({ note: "moved meanwhile", arriveAt: Date.UTC(2032, 1, 1) });
});

test("another ledger that is opened meanwhile gets none of the rows", async () => {
  meanwhile = async () => {
    meanwhile = () => Promise.resolve();
    await ask("ledger.demo", { path: rig.path("other"), which: "tarn" });
  };
  const reply = await rig.service.call("rows.import", { ...question(move), goodRowsOnly: false });
  expect(reply).toMatchObject({ ok: false, failure: { code: "refused" } });
  expect((await ask("ledger.info", {})).undoLabel).toBeNull();
});

test("reading can be stopped, and nothing is written then", async () => {
  meanwhile = async () => void (await rig.service.call("job.cancel", { jobId: "reading" }));
  const reply = await rig.service.call("rows.import", { ...question(move), goodRowsOnly: false }, "reading");
  expect(reply).toMatchObject({ ok: false, failure: { code: "cancelled" } });
  expect((await ask("ledger.info", {})).undoLabel).toBeNull();
});
