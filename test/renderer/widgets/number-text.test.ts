/** Numbers as people type them: what is read, and what is said when it cannot be. */
import { describe, expect, it } from "vitest";
import { figure, rangeWords, readNumber } from "../../../renderer/widgets/number-text.ts";

const kg = { min: 0, max: 20_000, unit: "kg" };
const read = (text: string, range: Parameters<typeof readNumber>[1] = kg) => {
  const reading = readNumber(text, range);
  return reading.ok ? reading.value : reading.fault;
};

describe("a number", () => {
  it.each([
    ["1234.5", 1234.5],
    ["1 234.5", 1234.5],
    ["1\u202f234", 1234],
    ["1234,5", 1234.5],
    ["  12 ", 12],
    ["1.2e3", 1200],
    [".5", 0.5],
    ["+7", 7],
  ])("“%s” is read as %d", (text, value) => expect(read(text)).toBe(value));

  it("may have a true minus sign", () => expect(read("\u22125", { min: -10, max: 10, unit: "" })).toBe(-5));

  it.each(["12t", "1.2.3", "--4", "0x10", "Infinity", "NaN", "1e999", "1,2,3", "twelve"])("is not “%s”", (text) =>
    expect(typeof read(text)).toBe("string"),
  );

  it("out of range is refused with the range, not clamped", () =>
    expect(read("20001")).toBe("20\u202f001\u202fkg is out of range: 0 to 20\u202f000\u202fkg."));

  it("on an open bound is refused", () => {
    const range = { min: 0, max: 10, unit: "%", isMinOpen: true };
    expect(rangeWords(range)).toBe("above 0, at most 10\u202f%");
    expect(typeof read("0", range)).toBe("string");
    expect(read("0.001", range)).toBe(0.001);
  });

  it("of things is whole", () => expect(read("1.5", { ...kg, isWhole: true })).toBe("A whole number is needed."));

  it("left out is asked for", () => expect(read(" ")).toBe("A number is needed: 0 to 20\u202f000\u202fkg."));
});

it("a figure has the decimals that the value has, at most those allowed", () => {
  expect([figure(12_000), figure(0.127), figure(1 / 3, 3), figure(0.1 + 0.2), figure(1e-7)]).toEqual([
    "12\u202f000",
    "0.127",
    "0.333",
    "0.3",
    "0",
  ]);
});
