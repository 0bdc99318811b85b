/** What is said of input that is wrong: in words, with the field, whatever the schema. */
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { contract } from "../../../app/contract/contract.ts";
import type { PlanningError } from "../../../app/ground/failure.ts";
import { parseInput } from "../../../app/ground/parse-input.ts";

const complaint = (schema: z.ZodType, value: unknown): [string | null, string] => {
  try {
    parseInput<unknown>(schema, value);
  } catch (error) {
    const { code, field, message } = error as PlanningError;
    expect(code).toBe("invalid input");
    return [field, message];
  }
  throw new Error("nothing was complained of");
};

const row = z.strictObject({
  massKg: z.number().min(0).max(5),
  name: z.string().min(1).max(3),
  sort: z.enum(["a", "b"]),
});
const good = { massKg: 1, name: "x", sort: "a" };

describe("a field", () => {
  it.each([
    [{ ...good, massKg: -1 }, "massKg", "This must be at least 0."],
    [{ ...good, massKg: 6 }, "massKg", "This must be at most 5."],
    [{ ...good, massKg: NaN }, "massKg", "A finite number is expected here."],
    [{ ...good, massKg: "1" }, "massKg", "A finite number is expected here."],
    [{ ...good, name: "" }, "name", "This text has at least 1 characters."],
    [{ ...good, name: "long" }, "name", "This text has at most 3 characters."],
    [{ ...good, sort: "c" }, "sort", "One of these is expected here: a, b."],
    [{ ...good, surplus: 1 }, "surplus", "There is no field of this name here."],
    [{ massKg: 1, name: "x" }, "sort", "One of these is expected here: a, b."],
    [null, null, "This part has the wrong form."],
  ])("of %j is named", (value, field, message) => expect(complaint(row, value)).toEqual([field, message]));

  it("that must be above a bound is told so", () =>
    expect(complaint(z.strictObject({ sigmaKg: z.number().gt(0) }), { sigmaKg: 0 })).toEqual([
      "sigmaKg",
      "This must be more than 0.",
    ]));

  it("keeps the words that its schema has for it", () =>
    expect(complaint(z.strictObject({ id: z.string().regex(/^x$/, "an id is x") }), { id: "y" })).toEqual([
      "id",
      "an id is x",
    ]));

  it("deep in a list is named by its path", () =>
    expect(complaint(z.strictObject({ rows: z.array(row) }), { rows: [good, { ...good, massKg: -1 }] })[0]).toBe(
      "rows.1.massKg",
    ));
});

describe("a change of the plan", () => {
  const edit = (change: unknown) =>
    complaint(contract["plan.edit"].input, { label: "x", reason: "", changes: [change] });
  const propellant = { id: "lh2", name: "Hydrogen", symbol: "LH2", fluid: "H2", densityKgPerM3: 70.8, position: 0 };

  it("is judged as the kind that it says it is", () => {
    expect(edit({ op: "put", kind: "propellant", value: { ...propellant, densityKgPerM3: 1 } })[0]).toBe(
      "changes.0.value.densityKgPerM3",
    );
    expect(edit({ op: "put", kind: "propellant", value: { ...propellant, colour: "blue" } })[0]).toBe(
      "changes.0.value.colour",
    );
    expect(edit({ op: "remove", kind: "flight", id: "NOT AN ID" })[0]).toBe("changes.0.id");
  });

  it.each([{ op: "burn" }, {}, null, 5, { op: "put", kind: "lorry", value: {} }])("%j is none", (change) =>
    expect(edit(change)[0]).toMatch(/^changes\.0/),
  );
});

it("is short, whatever came in", () => {
  const [field, message] = complaint(row, { ["k".repeat(100_000)]: 1, ...good });
  expect((field ?? "").length + message.length).toBeLessThan(1000);
});
