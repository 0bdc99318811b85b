/** What is said while a search runs. */
import { describe, expect, it } from "vitest";
import { bracketWords } from "../../../app/resupply/bracket-words.ts";

describe("the words of a bracket", () => {
  it("names the best plan so far and what is ruled out", () => {
    expect(bracketWords("flights", { lower: 12, upper: 14 })).toBe("14 flights so far; fewer than 12 are impossible.");
  });

  it("never rules out a whole number of flights that a fraction leaves open", () => {
    expect(bracketWords("flights", { lower: 11.2, upper: 14 })).toBe(
      "14 flights so far; fewer than 12 are impossible.",
    );
    expect(bracketWords("flights", { lower: 12 + 1e-12, upper: 14 })).toContain("fewer than 12 ");
  });

  it("says so where the best plan is proved, where there is none yet, and where nothing is ruled out", () => {
    expect(bracketWords("flights", { lower: 1, upper: 1 })).toBe("1 flight so far; fewer are impossible.");
    expect(bracketWords("flights", { lower: 3, upper: null })).toBe("No plan so far; fewer than 3 are impossible.");
    expect(bracketWords("flights", { lower: 1, upper: 4 })).toBe("4 flights so far; it cannot be done with none.");
    expect(bracketWords("flights", { lower: 0, upper: 5 })).toBe("5 flights so far.");
    expect(bracketWords("flights", { lower: -Infinity, upper: null })).toBe("");
  });

  it("says of cost that less is impossible, and of neither bound that not all can be held", () => {
    expect(bracketWords("cost", { lower: 78.456, upper: 156 })).toBe(
      "A cost of 156 so far; less than 78.45 is impossible.",
    );
    expect(bracketWords("cost", { lower: null, upper: null })).toMatch(/^Not every sortie can be held/);
  });
});
