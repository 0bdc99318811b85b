/** A risk answer in words: figures as exact as their errors bear, bounds where nothing was seen, assumptions said. */
import { describe, expect, it } from "vitest";
import {
  assumedWords,
  changeText,
  endWords,
  intervalText,
  isClear,
  shareText,
} from "../../../app/risk/answer-words.ts";
import type { RiskAnswer } from "../../../app/risk/answer.ts";
import type { SupplyGlance } from "../../../app/supply/answer.ts";
import { chanceSentence, verdictChance } from "../../../app/risk/verdict-chance.ts";
import { causeSentence } from "../../../app/risk/cause-words.ts";

const plain = (text: string): string => text.replaceAll("\u202f", " ");
const share = (value: number, standardError: number, n = 10_000): string =>
  plain(shareText({ value, standardError }, n));

describe("a probability", () => {
  it("is written as exactly as its standard error bears", () => {
    expect(share(0.8312, 0.0102)).toBe("83 ± 1 %");
    expect(share(0.8312, 0.0037)).toBe("83.1 ± 0.4 %");
    expect(share(0.8312, 0.00037)).toBe("83.12 ± 0.04 %");
  });

  // The rule of three: none of n seen bounds the probability at 3/n with 95 % confidence (Hanley and Lippman-Hand, JAMA 1983).
  it.each([
    [0, 300, "< 1 %"],
    [1, 300, "> 99 %"],
    [0, 4096, "< 0.08 %"],
    [1, 4096, "> 99.92 %"],
    [1, 2, "> 0 %"],
  ])("that is %d in all of %d runs is a bound: %s", (value, n, words) => expect(share(value, 0.001, n)).toBe(words));

  it("of no run is none", () => expect(share(0, 0.5, 0)).toBe("–"));
});

it("a change bears its sign and is told from nothing only beyond 1.96 standard errors", () => {
  expect(plain(changeText({ value: -0.0412, standardError: 0.006 }))).toBe("−4.1 ± 0.6");
  // −4.12 ± 1.96 × 0.6, by hand.
  expect(plain(intervalText({ value: -0.0412, standardError: 0.006 }))).toBe("−5.3 to −2.9");
  expect(isClear({ value: 0.0195, standardError: 0.01 })).toBe(false);
  expect(isClear({ value: -0.0197, standardError: 0.01 })).toBe(true);
});

it("beside a verdict says of what it is, on what it rests, and what it does not know of", () => {
  const answer = {
    replications: 4096,
    end: "number reached",
    allFlyWhenPlanned: { value: 0.83, standardError: 0.006 },
    sorties: Array.from({ length: 5 }, () => ({})),
    inputs: { count: 9, assumed: 2 },
  } as unknown as RiskAnswer;
  const say = (change: Partial<RiskAnswer>, findings: SupplyGlance["findings"] = []): string | null => {
    const chance = verdictChance({ ...answer, ...change }, { findings });
    return chance && plain(chanceSentence(chance));
  };
  expect(say({})).toBe("83.0 ± 0.6 %: all 5 sorties fly when planned (4 096 runs, 2 of 9 inputs assumed).");
  expect(say({ end: "stopped" })).toMatch(/stopped after 4 096 runs/);
  expect(say({ inputs: { count: 9, assumed: 9 } })).toMatch(/all 9 inputs assumed/);
  expect(say({ replications: 0 })).toBeNull();
  expect(say({ sorties: [] })).toBeNull();
  const overlap = { kind: "lander overlap", landerId: "l", sortieIds: ["a", "b"] } as const;
  expect(say({}, [overlap])).toMatch(/the findings that break the plan are not in it/);
});

it("says how many inputs are assumed, and nothing where all have a source", () => {
  expect(assumedWords({ inputs: { count: 14, assumed: 12 } })).toMatch(/^12 of 14 inputs are assumed\..*opinion/);
  expect(assumedWords({ inputs: { count: 14, assumed: 1 } })).toMatch(/^1 of 14 inputs is assumed/);
  expect(assumedWords({ inputs: { count: 3, assumed: 3 } })).toMatch(/^All 3 inputs are assumed/);
  expect(assumedWords({ inputs: { count: 3, assumed: 0 } })).toBeNull();
});

it("a run that was stopped says so", () => {
  expect(endWords({ end: "stopped", replications: 640 })).toMatch(/^Stopped after 640 runs/);
  expect(endWords({ end: "number reached", replications: 640 })).toBeNull();
});

it("names what the bad runs have in common", () =>
  expect(
    plain(
      causeSentence(
        "Sortie 4",
        {
          what: { kind: "flight late", flightId: "d4", moreThanDays: 20 },
          ofBad: { value: 0.71, standardError: 0.01 },
          ofAll: { value: 0.12, standardError: 0.01 },
        },
        () => "Drover 4",
      ),
    ),
  ).toBe(
    "In 71 % of the runs in which Sortie 4 does not fly when planned, Drover 4 slipped over 20 days (in 12 % of all runs).",
  ));
