/** How far a computation has come, in words. */
import { expect, it } from "vitest";
import type { Progress } from "../../../app/work/working.ts";
import { runWords } from "../../../renderer/widgets/run-words.ts";

const at = (progress: Progress | null, elapsedMs: number): string =>
  runWords({ startedAt: 1000, progress, stop: () => undefined }, 1000 + elapsedMs);

it("says nothing before anything was told", () => expect(at(null, 5000)).toBe(""));

it("says share, count, rate and time left: 20 000 of 100 000 runs in 2 s are 10 000 a second and leave 8 s", () =>
  expect(at({ share: 0.2, words: "Running", done: { count: 20_000, unit: "runs" } }, 2000)).toMatch(
    /^20.%? ?%? · 20.000 runs · 10.000 runs\/s · 8 s left$/u,
  ));

it("does not guess a rate or an end from the first moment", () =>
  expect(at({ share: 0.01, words: "Running", done: { count: 64, unit: "runs" } }, 20)).toMatch(/^1 % · 64 runs$/u));

it("says long times in minutes, and none when all is done", () => {
  expect(at({ share: 0.5, words: "Running" }, 600_000)).toMatch(/10 min left/);
  expect(at({ share: 1, words: "Running" }, 600_000)).not.toMatch(/left/);
});

it("says what is counted where the share cannot be said", () =>
  expect(at({ share: null, words: "Reading", done: { count: 5000, unit: "rows" } }, 1000)).toMatch(
    /^5.000 rows · 5.000 rows\/s$/u,
  ));
