/** A status that records made is changed by records alone; by hand only where the books say nothing. */
import { afterEach, beforeEach, expect, it } from "vitest";
import type { Input, OperationName } from "../../../app/contract/contract.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { startTestService, type TestService } from "./test-service.ts";

let test: TestService;
beforeEach(async () => {
  test = startTestService();
  await must("ledger.demo", { path: test.path("tarn"), which: "tarn" });
});
afterEach(() => test.end());

const must = async <N extends OperationName>(name: N, input: Input<N>) => {
  const reply = await test.service.call(name, input);
  if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
  return reply.value;
};
const flights = async (): Promise<readonly Entity<"flight">[]> => (await must("ledger.export", {})).entities.flight;
const flightThat = async (status: Entity<"flight">["status"]): Promise<Entity<"flight">> =>
  (await flights()).find((row) => row.status === status && row.planCaseId === "baseline")!;
const edit = (value: Entity<"flight">) =>
  test.service.call("plan.edit", { label: "By hand", reason: "", changes: [{ op: "put", kind: "flight", value }] });

it.each(["planned", "lost", "departed"] as const)("refuses to make a flight that arrived %s", async (status) => {
  const arrived = await flightThat("arrived");
  expect(await edit({ ...arrived, status })).toMatchObject({
    ok: false,
    failure: {
      code: "refused",
      message: `${arrived.name} is arrived by its records. Reverse the record in the journal; its status follows.`,
      field: "changes.0.value.status",
    },
  });
});

it.each([
  ["departed", "recording that it departed"],
  ["arrived", "recording its arrival"],
  ["lost", "recording its loss"],
] as const)("refuses to make a planned flight %s: that is recorded", async (status, words) => {
  const planned = await flightThat("planned");
  expect(await edit({ ...planned, status })).toMatchObject({
    ok: false,
    failure: { message: `${planned.name} becomes ${status} by ${words} (menu Record), so that the books follow.` },
  });
});

it("lets plans be firm, cancelled and planned again, and other fields of what arrived be edited", async () => {
  const planned = await flightThat("planned");
  for (const status of ["firm", "cancelled", "planned"] as const)
    expect(await edit({ ...planned, status })).toMatchObject({ ok: true });
  expect(await edit({ ...(await flightThat("arrived")), note: "seals checked" })).toMatchObject({ ok: true });
});

it("does not stand in the way of taking a record back, of undo and redo, and of a copied plan case", async () => {
  const { entries } = await must("ledger.export", {});
  const last = entries.findLast(({ kind }) => kind === "arrival")!;
  const key = last.subjectKey!;
  const statusNow = async () => (await flights()).find((row) => row.key === key)?.status;
  await must("record.reverse", { entryId: last.id, reason: "not there yet" });
  expect(await statusNow()).toBe("departed");
  await must("plan.undo", {});
  expect(await statusNow()).toBe("arrived");
  await must("plan.redo", {});
  expect(await statusNow()).toBe("departed");
  await must("case.copy", { fromId: "baseline", newId: "copied", name: "Copied" });
  expect((await flights()).find((row) => row.key === key && row.planCaseId === "copied")?.status).toBe("departed");
});

it("lets a status be mended by hand where no record speaks of it", async () => {
  const planned = await flightThat("planned");
  // Lost before it loaded: nothing of the books moved.
  await must("record.loss", { flightId: planned.id, at: planned.departAt, note: "" });
  expect(await edit({ ...planned, status: "planned" })).toMatchObject({ ok: true });
});

it("holds for sorties too", async () => {
  const { entities } = await must("ledger.export", {});
  const flown = entities.sortie.find(({ status }) => status === "flown")!;
  const change = { op: "put", kind: "sortie", value: { ...flown, status: "planned" } } as const;
  expect(await test.service.call("plan.edit", { label: "By hand", reason: "", changes: [change] })).toMatchObject({
    ok: false,
    failure: { message: expect.stringMatching(/is flown by its records/) as string },
  });
});
