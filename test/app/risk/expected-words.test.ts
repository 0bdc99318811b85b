/** What a plan takes on average, in words: figures as exact as their errors are. */
import { expect, test } from "vitest";
import { flightsSentence, meanMassText } from "../../../app/risk/expected-words.ts";

test("a mean is written to the first digit of its standard error, in t from a tonne on", () => {
  expect(meanMassText({ value: 9437.2, standardError: 11.4 }, "auto")).toBe("9.44\u202f±\u202f0.01\u202ft");
  expect(meanMassText({ value: 437.2, standardError: 2.3 }, "auto")).toBe("437\u202f±\u202f2\u202fkg");
  expect(meanMassText({ value: 437.26, standardError: 0.04 }, "kg")).toBe("437.26\u202f±\u202f0.04\u202fkg");
});

test("nothing lost in any run is nothing, and what cannot be told apart is a dash", () => {
  expect(meanMassText({ value: 0, standardError: 0 }, "auto")).toBe("0\u202f±\u202f0\u202fkg");
  expect(meanMassText(null, "auto")).toBe("–");
});

test("flights that depart, and those lost of them", () => {
  const flightsUsed = { value: 10.812, standardError: 0.012 };
  const flightsLost = { value: 0.341, standardError: 0.009 };
  expect(flightsSentence({ flightsUsed, flightsLost })).toBe(
    "On average 10.81\u202f±\u202f0.01 flights depart before the forecast ends; 0.341\u202f±\u202f0.009 of them are lost.",
  );
});
