/** The service's door, name by name: what no operation may take, whatever it is called. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { contract, type OperationName } from "../../../app/contract/contract.ts";
import type { Reply } from "../../../app/ground/failure.ts";
import { startTestService, type TestService } from "./test-service.ts";

const names = Object.keys(contract) as OperationName[];

let test: TestService;
beforeAll(async () => {
  test = startTestService();
  await test.service.call("ledger.demo", { path: test.path("beck"), which: "beck" });
});
afterAll(() => test.end());

const ask = (name: unknown, input?: unknown): Promise<Reply<unknown>> => test.service.dispatch(name, input);

const codeOf = (reply: Reply<unknown>): string => (reply.ok ? "ok" : reply.failure.code);

const nested = (depth: number): unknown => (depth === 0 ? 1 : [nested(depth - 1)]);
const ring: Record<string, unknown> = {};
ring["itself"] = ring;

const ill: readonly [string, unknown][] = [
  ["undefined", undefined],
  ["null", null],
  ["a list", []],
  ["a number", 1],
  ["NaN", NaN],
  ["text", "ledger"],
  ["ten million characters", "x".repeat(10_000_000)],
  ["a field too many", { surplus: 1 }],
  ["a field of ten million characters", { text: "x".repeat(10_000_000), name: "x".repeat(10_000_000) }],
  ["a field with a name of ten million characters", { ["x".repeat(10_000_000)]: 1 }],
  ["its own prototype as a field", JSON.parse('{"__proto__": {"planCaseId": "baseline"}}')],
  ["a constructor as a field", { constructor: { prototype: {} } }],
  ["a deep nest", { changes: nested(5000) }],
  ["a ring", ring],
  ["bytes", new Uint8Array(10)],
  ["a date", new Date(0)],
  ["a map", new Map([["planCaseId", "baseline"]])],
];

describe("every operation", () => {
  it.each(names.flatMap((name) => ill.map(([words, input]) => [name, words, input] as const)))(
    "%s refuses %s",
    async (name, _words, input) => {
      const reply = await ask(name, input);
      expect(codeOf(reply)).toBe("invalid input");
    },
  );

  it.each(names)("%s has a sentence of help", (name) => expect(contract[name].summary).toMatch(/^[A-Z].{8,}/));
});

describe("no operation", () => {
  it.each([
    "__proto__",
    "constructor",
    "toString",
    "hasOwnProperty",
    "valueOf",
    "",
    "ledger",
    "ledger.info ",
    "LEDGER.INFO",
    "x".repeat(10_000_000),
    undefined,
    null,
    1,
    {},
    ["ledger.info"],
    Symbol("ledger.info"),
  ])("is called %s", async (name) => {
    const reply = await ask(name, {});
    expect(codeOf(reply)).toBe("not found");
    if (!reply.ok) expect(reply.failure.message.length).toBeLessThan(200);
  });
});

describe("a refusal", () => {
  const flight = { op: "put", kind: "flight", value: { id: "A" } };

  it("names the field at fault, within the kind that was meant", async () => {
    const reply = await ask("plan.edit", { label: "x", reason: "", changes: [flight] });
    expect(reply).toMatchObject({ ok: false, failure: { code: "invalid input", field: "changes.0.value.id" } });
  });

  it("names a surplus field", async () =>
    expect(await ask("plan.undo", { again: true })).toMatchObject({
      failure: { field: "again", message: "There is no field of this name here." },
    }));

  it.each([NaN, Infinity, -Infinity, 1.5, -1, 9e15, "1938038400000"])("names an as-of instant of %s", async (asOfAt) =>
    expect(await ask("ledger.asOf", { asOfAt })).toMatchObject({ failure: { code: "invalid input", field: "asOfAt" } }),
  );

  it("does not repeat the input", async () => {
    const reply = await ask("plan.view", { planCaseId: "Z".repeat(1_000_000) });
    expect(JSON.stringify(reply).length).toBeLessThan(500);
  });

  it("finds the ledger open all the while", async () => expect(codeOf(await ask("ledger.info", {}))).toBe("ok"));

  it("left no defect in the log", () => expect(test.defects).toEqual([]));
});
