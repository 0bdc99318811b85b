/** What crosses the browser host's door keeps its value and its type, bit for bit. */
import {
  array,
  assert,
  double,
  float32Array,
  float64Array,
  int32Array,
  json,
  jsonValue,
  oneof,
  property,
  record,
  string,
  uint8Array,
  uint16Array,
  uint32Array,
} from "fast-check";
import { describe, expect, it } from "vitest";
import { base64ToBytes, bytesToBase64 } from "../../app/contract/base64.ts";
import { fromTypedJson, toTypedJson } from "../../app/contract/typed-json.ts";

const typedArray = oneof(
  float64Array(),
  float32Array(),
  int32Array(),
  uint8Array(),
  uint16Array(),
  uint32Array(),
  array(double()).map((numbers) => Float64Array.from(numbers).subarray(numbers.length >> 1)),
);

describe("typed JSON", () => {
  it("gives back plain data with typed arrays in it as it was, of the same type", () =>
    assert(
      property(
        record({ name: string(), levels: typedArray, rows: array(record({ at: typedArray, rest: jsonValue() })) }),
        (value) => {
          const back = fromTypedJson(toTypedJson(value)) as typeof value;
          expect(back.levels.constructor).toBe(value.levels.constructor);
          expect(back).toEqual(plain(value));
        },
      ),
    ));

  it("keeps every bit of a number in an array: not a number, infinite, minus zero", () => {
    const odd = new Float64Array([NaN, Infinity, -Infinity, -0, Number.MIN_VALUE, 0.1]);
    const back = fromTypedJson(toTypedJson({ odd })) as { odd: Float64Array };
    expect(new Uint8Array(back.odd.buffer)).toEqual(new Uint8Array(odd.buffer));
  });

  it("reads what JSON writes", () =>
    assert(
      property(json(), (text) => {
        expect(fromTypedJson(text)).toEqual(JSON.parse(text));
      }),
    ));

  it.each([NaN, Infinity, -Infinity])("refuses a plain %s by name", (odd) =>
    expect(() => toTypedJson({ rows: [{ massKg: odd }] })).toThrow(/"massKg" is not finite/),
  );

  it("refuses plain data that looks like an array's mark", () =>
    expect(() => toTypedJson({ part: { $array: "Float64Array", base64: "" } })).toThrow(/stands for something else/));
});

/** −0 among plain numbers becomes 0, as JSON has it. */
const plain = (value: unknown): unknown => {
  if (Object.is(value, -0)) return 0;
  if (typeof value !== "object" || value === null || ArrayBuffer.isView(value)) return value;
  if (Array.isArray(value)) return value.map(plain);
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, plain(part)]));
};

describe("base64", () => {
  it("is what Node's Buffer writes, and is read back", () =>
    assert(
      property(uint8Array({ maxLength: 20_000 }), (bytes) => {
        const text = bytesToBase64(bytes);
        expect(text).toBe(Buffer.from(bytes).toString("base64"));
        expect(base64ToBytes(text)).toEqual(new Uint8Array(bytes));
      }),
    ));

  // RFC 4648, section 10.
  it.each([
    ["", ""],
    ["f", "Zg=="],
    ["fo", "Zm8="],
    ["foo", "Zm9v"],
    ["foob", "Zm9vYg=="],
    ["fooba", "Zm9vYmE="],
    ["foobar", "Zm9vYmFy"],
  ])("writes %j as %j", (text, written) => expect(bytesToBase64(new TextEncoder().encode(text))).toBe(written));

  it.each(["Zg=", "Z===", "Zm9!", "Zmé9"])("refuses %j", (text) =>
    expect(() => base64ToBytes(text)).toThrow(/not base64/),
  );
});
