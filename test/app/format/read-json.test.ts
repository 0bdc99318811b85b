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
    { numRuns: 100 },
  ));

it("passes over a byte-order mark", () => expect(readJson("\uFEFF[1]")).toEqual([1]));

it("counts no bracket and no comma within a text", () => {
  const text = "[{,".repeat(3_000_000);
  expect(readJson(JSON.stringify([text]))).toEqual([text]);
});

/** So many fields, as they stand in a group. */
const fieldsOf = (count: number): string => Array.from({ length: count }, (_, n) => `"f${n}":{}`).join(",");

it("takes many groups, long lists within them, and as many fields as anything could have", () => {
  const text = `[${Array.from({ length: 40 }, () => `{${fieldsOf(900)},"l":[${"0,".repeat(20_000)}0]}`).join(",")},{${fieldsOf(10_000)}}]`;
  expect(readJson(text)).toEqual(JSON.parse(text));
});

it.each([
  ["lists in lists", "[".repeat(20_000_000), /groups within groups/],
  ["groups in groups", '{"a":'.repeat(1_000_000), /groups within groups/],
  ["empty groups", `[${"[{},{},{}],".repeat(990_000)}{}]`, /more than 6 million values/],
  ["numbers", `[${"0,".repeat(1_000_001)}0]`, /a list of more than a million entries/],
  [
    "a group of a great many fields",
    `[{"a":${JSON.stringify(Array.from({ length: 20_000 }, () => 0))},${fieldsOf(10_001)}}]`,
    /a group of more than 10,000 fields/,
  ],
  ["a text without an end", `["${"x".repeat(10_000_000)}`, /./],
  ["a text of backslashes", `["${"\\".repeat(1_000_001)}`, /./],
  ["nothing", "", /./],
])("%s are refused in words", (_name, text, words) => {
  expect(() => readJson(text)).toThrow(UnreadableJson);
  expect(() => readJson(text)).toThrow(words);
});
