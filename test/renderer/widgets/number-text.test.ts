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
    ["1,234.5", 1234.5],
    ["1.234,5", 1234.5],
    ["0,125", 0.125],
    ["17.25 t", 17_250],
    ["17t", 17_000],
    ["250 g", 0.25],
    ["2\u202f000 lb", 907.18474],
    ["640 kg", 640],
  ])("“%s” is read as %d", (text, value) => expect(read(text)).toBe(value));

  it("may have a true minus sign", () => expect(read("\u22125", { min: -10, max: 10, unit: "" })).toBe(-5));

  it.each(["12 m", "12 parsec", "1.2.3", "--4", "0x10", "Infinity", "NaN", "1e999", "1,2,3", "twelve"])(
    "is not “%s”",
    (text) => expect(typeof read(text)).toBe("string"),
  );

  it("that can mean two things is asked about with both meanings, never taken for one", () => {
    expect(read("17,000")).toBe("“17,000” can mean 17\u202f000 or 17. Write 17000 or 17.000.");
    expect(read("1,250 t")).toBe("“1,250 t” can mean 1\u202f250 or 1.25. Write 1250 or 1.250.");
  });

  it("in another unit of the same kind is turned into the one shown; of another kind it is refused", () => {
    expect(read("36 h", { min: 0, max: 10, unit: "days" })).toBe(1.5);
    expect(read("5 kg", { min: 0, max: 10, unit: "days" })).toBe("“5 kg” is not in days. Write the number alone.");
    expect(read("50 %", { min: 0, max: 100, unit: "%" })).toBe(50);
  });

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
