/** The digest that is made piece by piece is that of the whole text. */
import { createHash } from "node:crypto";
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { toTypedJson } from "../../../../app/contract/typed-json.ts";
import { digestOf } from "../../../../main/service/work/digest.ts";

const whole = (...parts: readonly unknown[]): string =>
  createHash("sha256")
    .update(parts.map((part) => `${toTypedJson(part ?? null)}\n`).join(""))
    .digest("hex");
const piecewise = (...parts: readonly unknown[]): string => digestOf(parts, { after: "\n", as: "hex" });

const { data } = fc.letrec((tie) => ({
  data: fc.oneof(
    { maxDepth: 9 },
    fc.oneof(
      fc.string({ unit: "binary" }),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.boolean(),
      fc.constant(null),
      fc.constant(undefined),
      fc.array(fc.double(), { maxLength: 4 }).map((numbers) => Float64Array.from(numbers)),
      fc.array(fc.nat(), { maxLength: 4 }).map((numbers) => Uint32Array.from(numbers)),
    ),
    fc.array(tie("data"), { maxLength: 6 }),
    fc.dictionary(fc.string(), tie("data"), { maxKeys: 6 }),
  ),
}));

it("is that of the whole text for any plain data", () => {
  fc.assert(fc.property(fc.array(data, { maxLength: 3 }), (parts) => piecewise(...parts) === whole(...parts)));
});

it("is that of the whole text for lists about as long as one piece, and far longer", () => {
  for (const length of [0, 1, 255, 256, 257, 511, 512, 513, 5000]) {
    const rows = Array.from({ length }, (_unused, index) =>
      index % 7 === 0 ? undefined : { index, name: `"${index},` },
    );
    expect(piecewise({ deep: { rows, more: [rows] } }, rows), `${length}`).toBe(
      whole({ deep: { rows, more: [rows] } }, rows),
    );
  }
});

it("refuses a number that is not finite, wherever it stands", () => {
  for (const bad of [{ a: { b: Number.NaN } }, [[Infinity]], { rows: Array.from({ length: 999 }, () => -Infinity) }])
    expect(() => piecewise(bad)).toThrow("not finite");
});
