/** Long input is read entry by entry: the same reading as in one piece, the same first fault, and no fault after it. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { z } from "zod";
import { PlanningError } from "../../../app/ground/failure.ts";
import { parseInput } from "../../../app/ground/parse-input.ts";

const entry = z.strictObject({
  name: z.string().min(1),
  mass: z.number().default(3),
  tags: z.array(z.string()).max(3),
});
const schema = z.strictObject({
  title: z.string(),
  rows: z.array(entry).min(1).max(1000),
  more: z.strictObject({ rows: z.array(entry).default([]), mark: z.boolean() }),
});

const row = fc.record({ name: fc.string({ minLength: 1 }), tags: fc.array(fc.string(), { maxLength: 3 }) });
const document = fc.record({
  title: fc.string(),
  rows: fc.array(row, { minLength: 1, maxLength: 400, size: "max" }),
  more: fc.record({ rows: fc.array(row, { maxLength: 400, size: "max" }), mark: fc.boolean() }),
});

const faultOf = (value: unknown): PlanningError | null => {
  try {
    parseInput(schema, value);
    return null;
  } catch (error) {
    return error as PlanningError;
  }
};

it("gives what the schema gives in one piece, defaults filled in", () =>
  fc.assert(
    fc.property(document, (value) => {
      expect(parseInput(schema, value)).toEqual(schema.parse(value));
    }),
    { numRuns: 60 },
  ));

it("names the first bad entry by its place", () =>
  fc.assert(
    fc.property(document, fc.nat(), fc.boolean(), (value, seed, isInner) => {
      const rows: unknown[] = [...(isInner ? value.more.rows : value.rows)];
      if (rows.length === 0) return;
      const index = seed % rows.length;
      rows[index] = { ...(rows[index] as object), mass: "heavy" };
      const bad = isInner ? { ...value, more: { ...value.more, rows } } : { ...value, rows };
      const fault = faultOf(bad);
      expect(fault?.field).toBe(`${isInner ? "more.rows" : "rows"}.${index}.mass`);
      expect(fault?.message).toBe("A finite number is expected here.");
    }),
    { numRuns: 60 },
  ));

it("holds a long list to its own limits, and a group around it to its fields", () => {
  const rows = Array.from({ length: 1001 }, () => ({ name: "a", tags: [] }));
  const more = { mark: true };
  expect(faultOf({ title: "", rows, more })?.message).toBe("This list has at most 1000 entries.");
  expect(faultOf({ title: "", rows: rows.slice(1), more, extra: 1 })?.field).toBe("extra");
  expect(faultOf({ title: 1, rows: rows.slice(1), more })?.field).toBe("title");
  expect(faultOf({ title: "", rows: rows.slice(1), more })).toBeNull();
});

it("looks at no entry behind the first fault", () => {
  let looked = 0;
  const counted = z.array(z.string().refine(() => (looked += 1) > 0));
  expect(() => parseInput(counted, [...Array<string>(500).fill("a"), 1, ...Array<string>(50_000).fill("a")])).toThrow(
    "Text is expected here.",
  );
  expect(looked).toBeLessThanOrEqual(500);
});

it("reads a group with a rule over its parts in one piece", () => {
  const ruled = z
    .strictObject({ rows: z.array(entry), sum: z.number() })
    .refine(({ rows, sum }) => rows.reduce((total, { mass }) => total + mass, 0) === sum, "the sum is wrong");
  const rows = Array.from({ length: 300 }, () => ({ name: "a", tags: [] }));
  expect(parseInput(ruled, { rows, sum: 900 }).rows[299]?.mass).toBe(3);
  expect(() => parseInput(ruled, { rows, sum: 1 })).toThrow("the sum is wrong");
});
