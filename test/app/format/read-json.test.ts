/** JSON of any size is read or refused; never begun and not ended. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { readJson, UnreadableJson } from "../../../app/format/read-json.ts";

it("reads what the language reads, whatever stands in its texts", () =>
  fc.assert(
    fc.property(fc.json({ maxDepth: 6 }), fc.string({ unit: "binary" }), (text, words) => {
      expect(readJson(text)).toEqual(JSON.parse(text));
      const awkward = { a: words, b: [`\\"[[{{,${words}\\`, '"'], [words]: {} };
      expect(readJson(JSON.stringify(awkward))).toEqual(JSON.parse(JSON.stringify(awkward)));
    }),
    { numRuns: 300 },
  ));

it("passes over a byte-order mark", () => expect(readJson("\uFEFF[1]")).toEqual([1]));

it("counts no bracket and no comma within a text", () => {
  const text = "[{,".repeat(3_000_000);
  expect(readJson(JSON.stringify([text]))).toEqual([text]);
});

it.each([
  ["lists in lists", "[".repeat(20_000_000), /groups within groups/],
  ["groups in groups", '{"a":'.repeat(1_000_000), /groups within groups/],
  ["empty groups", `[${"{},".repeat(8_000_000)}{}]`, /more than 6 million values/],
  ["numbers", `[${"0,".repeat(8_000_000)}0]`, /more than 6 million values/],
  ["a text without an end", `["${"x".repeat(10_000_000)}`, /./],
  ["a text of backslashes", `["${"\\".repeat(1_000_001)}`, /./],
  ["nothing", "", /./],
])("%s are refused in words", (_name, text, words) => {
  expect(() => readJson(text)).toThrow(UnreadableJson);
  expect(() => readJson(text)).toThrow(words);
});
