/** A run led over threads: the same answer whatever their number, stopped and failed parts, the stop rule, causes. */
import { describe, expect, test } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { RiskAnswer, RiskCauses } from "../../../app/risk/answer.ts";
import { leadCauses, leadCompared, runCompared, runVariant, type VariantPart } from "../../../app/risk/ask-causes.ts";
import { type BlockRange, leadRun, type RiskBase, type RunAsked, runPart } from "../../../app/risk/ask-risk.ts";
import type { Leading, Working } from "../../../app/work/working.ts";
import { campaign } from "../../bench/reference-campaign.ts";
import { flight, smallPlan, sortie } from "../forecast/small-plan.ts";
import { withInputs } from "./kernel-plan.ts";

const every = { kind: "every" } as const;
const working: Working = { tell: () => undefined, shouldStop: () => false };

const plan = withInputs(campaign({ flights: 12, sorties: 4, rateChanges: 2, years: 2 }), [
  { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0.4, meanDays: 12 } },
  { quantity: "flight loss", of: every, law: { kind: "probability", probability: 0.03 } },
  { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.3 } },
]);
const base: RiskBase = { plan, readings: [], inputHash: "0".repeat(64) };
const asked: RunAsked = { seed: 5, runs: 10_000, untilError: null, detail: "full" };

interface Told {
  readonly partials: RiskAnswer[];
  readonly shares: (number | null)[];
}

/** Threads in one: parts are run backwards, as if each took as long as it liked. `stopAfter`: parts until Stop is pressed. */
const leadingOver = <P, Part, Done>(
  threads: number,
  run: (part: Part) => Done,
  stopAfter = Infinity,
): Leading<P, Part, Done> & { readonly told: { partials: P[]; shares: (number | null)[] } } => {
  let begun = 0;
  const told: { partials: P[]; shares: (number | null)[] } = { partials: [], shares: [] };
  return {
    threads,
    told,
    shouldStop: () => begun >= stopAfter,
    tell: (progress) => {
      const { share, partial } = typeof progress === "function" ? progress() : progress;
      told.shares.push(share);
      if (partial !== undefined) told.partials.push(partial);
    },
    runParts: async (parts, onDone) => {
      const order = [...parts.keys()].toReversed();
      const done: (Done | null)[] = parts.map(() => null);
      // Who stops leaves the last parts undone, whichever were begun first.
      const allowed = new Set([...parts.keys()].slice(0, Math.max(0, stopAfter - begun)));
      begun += parts.length;
      for (const place of order) {
        if (!allowed.has(place)) continue;
        const result = run(parts[place] as Part);
        done[place] = result;
        onDone?.(result, place);
      }
      return await Promise.resolve(done);
    },
  };
};

const led = async (threads: number, over: Partial<RunAsked> = {}, stopAfter = Infinity) => {
  const of = { ...asked, ...over };
  const leading = leadingOver<RiskAnswer, BlockRange, ReturnType<typeof runPart>>(
    threads,
    (part) => runPart(base, of, part, working),
    stopAfter,
  );
  const answer = await leadRun(base, of, leading);
  return { answer, told: leading.told as Told };
};

test("1, 2 and 7 threads give the same answer, letter for letter", async () => {
  const one = JSON.stringify((await led(1)).answer);
  expect(JSON.stringify((await led(2)).answer)).toBe(one);
  expect(JSON.stringify((await led(7)).answer)).toBe(one);
  expect(JSON.parse(one)).toMatchObject({ replications: 10_048, end: "number reached", bandReplications: 10_048 });
});

test("it tells how far it is, and what is known so far", async () => {
  const { answer, told } = await led(2);
  expect(told.shares.at(-1)).toBe(1);
  expect(told.shares.every((share, n) => n === 0 || (share ?? 0) >= (told.shares[n - 1] ?? 0))).toBe(true);
  expect(told.partials.map(({ end }) => end)).toEqual(told.partials.map(() => "not finished"));
  expect(told.partials.map(({ replications }) => replications)).toEqual([128, 1024, 4096, 8192, 10_048]);
  expect(told.partials.at(-1)?.allFly).toEqual(answer.allFly);
});

test("stopped, it answers with what is whole, says so, and the same number asked for gives the same", async () => {
  const { answer } = await led(2, {}, 3);
  expect(answer).toMatchObject({ end: "stopped", replications: (1 + 1 + 7) * 64 });
  const again = (await led(7, { runs: answer.replications })).answer;
  expect({ ...again, end: answer.end }).toEqual(answer);
});

test("the stop rule ends at a mark, whatever the number of threads", async () => {
  const one = (await led(1, { runs: 1_000_000, untilError: 0.006 })).answer;
  expect(one.end).toBe("error reached");
  expect(one.replications % 4096).toBe(0);
  expect(one.allFlyWhenPlanned.standardError).toBeLessThanOrEqual(0.006);
  expect((await led(5, { runs: 1_000_000, untilError: 0.006 })).answer).toEqual(one);
});

test("beyond the banded replications the probabilities go on, the bands stay", async () => {
  const more = (await led(2, { runs: 22_000 })).answer;
  const banded = (await led(2, { runs: 20_480 })).answer;
  expect(more).toMatchObject({ replications: 22_016, bandReplications: 20_480 });
  expect(more.bands).toEqual(banded.bands);
  expect(more.allFly).not.toEqual(banded.allFly);
});

test("a part that fails fails the run: there is no short count", async () => {
  const leading = leadingOver<RiskAnswer, BlockRange, never>(2, () => {
    throw new Error("the thread died");
  });
  await expect(leadRun(base, asked, leading)).rejects.toThrow("the thread died");
});

test("a plan without a sortie is refused by name", async () => {
  const none: RiskBase = { ...base, plan: smallPlan({ flights: [flight("f", 1, 2, 3)] }) };
  const leading = leadingOver<RiskAnswer, BlockRange, never>(1, () => {
    throw new Error("never asked");
  });
  const refused = await leadRun(none, asked, leading).catch((error: unknown) => error);
  expect(refused).toBeInstanceOf(PlanningError);
  expect(refused).toMatchObject({ code: "refused", field: "planCaseId", message: expect.stringMatching(/^Baseline/) });
});

describe("what it hangs on", () => {
  const causesOf = async (threads: number, stopAfter = Infinity) =>
    await leadCauses(
      base,
      { seed: 5, runs: 640 },
      leadingOver<RiskCauses, VariantPart, Uint8Array>(
        threads,
        (part) => runVariant(base, { seed: 5, runs: 640 }, part, working),
        stopAfter,
      ),
    );

  test("every input that is uncertain, every flight ahead, pairs of the worst: greatest first", async () => {
    const causes = await causesOf(2);
    expect(causes.isWhole).toBe(true);
    expect(causes.drivers.map(({ inputId }) => inputId).toSorted()).toEqual(
      plan.riskInputs
        .filter(({ uncertainty: { law } }) => law.kind !== "none")
        .map(({ id }) => id)
        .toSorted(),
    );
    expect(causes.dropOne).toHaveLength(plan.flights.length);
    expect(causes.dropTwo).toHaveLength((8 * 7) / 2);
    const changes = causes.dropOne.map(({ change }) => change.value);
    expect(changes).toEqual(changes.toSorted((a, b) => a - b));
    // Two flights less are no better than the worse of the two, save for groundings that go with them.
    expect(causes.dropTwo[0]!.change.value).toBeLessThanOrEqual(changes[0]! + 0.05);
    expect(await causesOf(5)).toEqual(causes);
  });

  test("stopped, it says that it is not whole", async () => {
    expect(await causesOf(2, 0)).toMatchObject({ isWhole: false, drivers: [], dropOne: [] });
    expect((await causesOf(2, 4)).isWhole).toBe(false);
  });
});

test("two cases are paired: one flight more in the second is a difference with a small error", async () => {
  const lean = withInputs(smallPlan({ flights: [flight("f", 5, 40, 1000)], sorties: [sortie("s", 50, 1000)] }), [
    { quantity: "flight slip", of: every, law: { kind: "exponential", noneShare: 0, meanDays: 20 } },
  ]);
  const [first] = lean.flights;
  const spare = { ...first!, id: "g", key: "g", name: "g", craftId: "packhorse-2" };
  const hull = { ...lean.craft[0]!, id: "packhorse-2", name: "Packhorse 2" };
  const two = { ...lean, flights: [first!, spare], craft: [...lean.craft, hull] };
  const bases = {
    first: { plan: lean, readings: [], inputHash: "" },
    second: { plan: two, readings: [], inputHash: "" },
  };
  const comparing = { seed: 3, runs: 20_000 };
  const found = await leadCompared(
    bases,
    comparing,
    leadingOver(2, (part: Parameters<typeof runCompared>[2]) => runCompared(bases, comparing, part, working)),
  );
  // P: 1 − e^(−1/2) with one, 1 − e^(−1) with two flights; the second helps only where the first is late.
  const expected = Math.exp(-0.5) - Math.exp(-1);
  const { allFly } = found;
  expect(Math.abs(allFly.value - expected)).toBeLessThan(4 * allFly.standardError);
  expect(allFly.standardError).toBeCloseTo(Math.sqrt((expected * (1 - expected)) / found.replications), 4);
});
