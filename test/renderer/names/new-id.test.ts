/** Ids and names for new things. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { id as idSchema } from "../../../app/ground/quantity.ts";
import { nextName, slug, uniqueId } from "../../../renderer/names/new-id.ts";

it("a slug is what a person can read", () => {
  expect(slug("South Rim Survey")).toBe("south-rim-survey");
  expect(slug("Møre & Åsgård — n° 7")).toBe("m-re-asgard-n-7");
});

it("any name, however odd, gives an id that the ledger takes and that is free", () => {
  const taken = new Set(["a", "a-2", "flight", "flight-2"]);
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", maxLength: 200 }), (name) => {
      const made = uniqueId(name, "flight", taken, "baseline.");
      expect(idSchema.safeParse(made).success).toBe(true);
      expect(taken.has(uniqueId(name, "flight", taken))).toBe(false);
    }),
  );
});

it("a number is put where an id is taken, also where there is hardly room", () => {
  const long = "x".repeat(40);
  const prefix = `${"p".repeat(30)}.`;
  const first = uniqueId(long, "flight", new Set(), prefix);
  const second = uniqueId(long, "flight", new Set([first]), prefix);
  expect(second).not.toBe(first);
  expect(second.length).toBeLessThanOrEqual(64);
  expect(second.endsWith("-2")).toBe(true);
});

it("the next name counts on", () => {
  expect(nextName("Packhorse 7", new Set(["Packhorse 8"]))).toBe("Packhorse 9");
  expect(nextName("Baseline", new Set())).toBe("Baseline 2");
});
