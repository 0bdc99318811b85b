/** Which copies of days are kept: the last seven, and the first of each month before them. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { surplusDays } from "../../../main/copies/copy-folder.ts";

const days = (from: string, count: number): readonly string[] =>
  Array.from({ length: count }, (_, n) => new Date(Date.parse(from) + n * 86_400_000).toISOString().slice(0, 10));

it("keeps seven of a week of days, and of the months before their first", () => {
  const all = days("2031-01-05", 60);
  const gone = new Set(surplusDays(all));
  const kept = all.filter((day) => !gone.has(day));
  expect(kept).toEqual(["2031-01-05", "2031-02-01", ...days("2031-02-27", 2), ...days("2031-03-01", 5)]);
});

it("thinned out day by day, every month that had a copy keeps one, and the last seven are there", () => {
  fc.assert(
    fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 900 }), { minLength: 1, maxLength: 120 }), (numbers) => {
      const all = numbers.toSorted((a, b) => a - b).flatMap((n) => days("2030-11-20", n + 1).slice(-1));
      let kept: readonly string[] = [];
      for (const day of all) {
        const now = [...kept, day];
        const gone = new Set(surplusDays(now));
        kept = now.filter((each) => !gone.has(each));
      }
      expect(kept.slice(-7)).toEqual(all.slice(-7));
      for (const day of all) expect(kept.some((each) => each.slice(0, 7) === day.slice(0, 7))).toBe(true);
      const months = new Set(all.map((day) => day.slice(0, 7))).size;
      expect(kept.length).toBeLessThanOrEqual(7 + months);
    }),
    { numRuns: 50 },
  );
});
