/** A fault of the program itself: logged with its stack under an id, told to the page without it. */
import { expect, it } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import { keepCopies } from "../../../main/copies/keep-copies.ts";
import { inlineRunner } from "../../../main/service/work/runner.ts";
import { makeService } from "../../../main/service/service.ts";
import { testEnvironment } from "./test-service.ts";

const serviceThatThrows = (error: unknown, defects: string[] = []) =>
  makeService({
    environment: testEnvironment(defects),
    files: {
      open: () => {
        throw error;
      },
      create: () => {
        throw error;
      },
      read: () => {
        throw new Error("not part of this test");
      },
      fromDocument: () => {
        throw error;
      },
      takeAway: () => {
        throw new Error("not part of this test");
      },
      state: () => {
        throw new Error("not part of this test");
      },
      putBack: () => {
        throw new Error("not part of this test");
      },
    },
    copies: keepCopies(
      () => "",
      () => null,
    ),
    runner: inlineRunner(),
  });

it("tells the id of the log line and no stack", async () => {
  const defects: string[] = [];
  const reply = await serviceThatThrows(new TypeError("secret of the inside"), defects).call("ledger.open", {
    path: "x",
  });
  expect(reply).toMatchObject({ ok: false, failure: { code: "defect", field: null } });
  expect(JSON.stringify(reply)).not.toMatch(/secret|TypeError|\.ts|at /u);
  expect(JSON.stringify(reply)).toMatch(/log-id/);
  expect(defects).toHaveLength(1);
  expect(defects[0]).toMatch(/secret of the inside[\s\S]*defect\.test\.ts/);
});

it.each(["text", undefined, null, 7])("survives a thrown %s", async (thrown) =>
  expect(await serviceThatThrows(thrown).call("ledger.open", { path: "x" })).toMatchObject({
    failure: { code: "defect" },
  }),
);

it("passes a planning error on as it is", async () =>
  expect(
    await serviceThatThrows(new PlanningError("storage", "The disk is full.", "path")).call("ledger.open", {
      path: "x",
    }),
  ).toEqual({ ok: false, failure: { code: "storage", message: "The disk is full.", field: "path" } }));
