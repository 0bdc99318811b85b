/** How often progress is told. */
import { expect, it } from "vitest";
import type { Progress } from "../../../../app/work/working.ts";
import { telling } from "../../../../main/service/work/telling.ts";

const at = (share: number): Progress => ({ share, words: "Counting" });

it("tells the first at once and then ten a second, and makes no progress that is not told", () => {
  const heard: Progress[] = [];
  const clock = { ms: 0, made: 0 };
  const tell = telling(
    (progress) => heard.push(progress),
    () => clock.ms,
  );
  for (clock.ms = 0; clock.ms < 1000; clock.ms += 10) {
    tell(at(clock.ms / 1000));
    tell(() => {
      clock.made += 1;
      return { ...at(clock.ms / 1000), partial: clock.made };
    });
  }
  expect(heard.filter(({ partial }) => partial === undefined).map(({ share }) => share)).toEqual([
    0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9,
  ]);
  expect(clock.made).toBe(10);
});

it("lets what is known so far through beside plain progress, which must not take its turn", () => {
  const heard: Progress[] = [];
  const tell = telling(
    (progress) => heard.push(progress),
    () => 0,
  );
  tell(at(0));
  tell(() => ({ ...at(0), partial: "first" }));
  expect(heard.at(-1)?.partial).toBe("first");
});

it("makes what takes long to make less often: a tenth of the time at most", () => {
  const clock = { ms: 0, made: 0 };
  const tell = telling(
    () => undefined,
    () => clock.ms,
  );
  for (; clock.ms < 10_000; clock.ms += 10)
    tell(() => {
      clock.made += 1;
      clock.ms += 50;
      return at(0);
    });
  expect(clock.made * 50).toBeLessThanOrEqual(1000);
  expect(clock.made).toBeGreaterThan(10);
});
