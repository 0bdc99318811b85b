/** What stays selected when the plan changes, and what undo is called: on the real service. */
import "../with-dom.ts";
import { afterEach, beforeEach, expect, it } from "vitest";
import { openPage } from "../planner-page.tsx";

let page: Awaited<ReturnType<typeof openPage>>;
beforeEach(async () => {
  page = await openPage(null);
});
afterEach(() => page.close());

const planned = () => page.plan().flights.filter(({ status }) => status === "planned");

it("a selection goes with what it names, and comes to what is left of several", async () => {
  const [first, second, third] = planned();
  if (first === undefined || second === undefined || third === undefined) throw new Error("no planned flights");
  page.session.select({ kind: "flight", id: first.id });
  await page.session.edit("Delete", [{ op: "remove", kind: "flight", id: first.id }]);
  expect(page.store.get().selection).toBeNull();

  page.session.selectMany([second, third].map(({ id }) => ({ kind: "flight", id })));
  await page.session.edit("Delete", [{ op: "remove", kind: "flight", id: third.id }]);
  expect(page.store.get()).toMatchObject({ selection: { kind: "flight", id: second.id }, many: [] });
});

it("another plan case and an undo of what was added leave no selection behind that names nothing", async () => {
  const [first] = planned();
  if (first === undefined) throw new Error("no planned flight");
  const copy = { ...first, id: "extra", key: "extra", name: "Extra" };
  await page.session.edit("Add Extra", [{ op: "put", kind: "flight", value: copy }]);
  page.session.select({ kind: "flight", id: copy.id });
  expect(page.store.get().ledger?.undoLabel).toBe("Add Extra");
  await page.session.undo();
  expect(page.store.get().selection).toBeNull();
  page.session.select({ kind: "flight", id: first.id });
  await page.session.undo();
  expect(page.store.get().selection).toEqual({ kind: "flight", id: first.id });
});
