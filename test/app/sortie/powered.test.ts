/** Integrated descent and ascent: where they start and end, and what they tend to. */
import { describe, expect, test } from "vitest";
import { impulsiveLimitMPerS } from "../../../app/sortie/moon.ts";
import { flyAscent } from "../../../app/sortie/powered/ascent.ts";
import { flyDescent } from "../../../app/sortie/powered/descent.ts";
import { flyTurn } from "../../../app/sortie/powered/gravity-turn.ts";

const engine = (lunarG: number) => ({ acceleration: lunarG * 1.62, throttle: 1, ispAt: () => 450 });
const pure = { orbitHeightM: 100_000, touchdownMPerS: 0.1, vertical: null };

describe("descent", () => {
  test("starts at the ignition height and ends at the surface with the touchdown speed", () => {
    const flown = flyDescent({ ...pure, touchdownMPerS: 5 }, engine(3))!;
    expect(flown.samples[0]!.heightM).toBeCloseTo(flown.turnHeightM, 3);
    const end = flown.samples.at(-1)!;
    expect(end.heightM).toBeCloseTo(0, 2);
    expect(end.speedMPerS).toBeCloseTo(5, 6);
  });

  test("falls with thrust and tends to the impulsive limit", () => {
    const deltaV = [1.6, 2, 3, 5, 10, 30, 100].map((lunarG) => flyDescent(pure, engine(lunarG))!.deltaVMPerS);
    expect(deltaV).toEqual(deltaV.toSorted((a, b) => b - a));
    expect(deltaV.at(-1)! - impulsiveLimitMPerS(100_000)).toBeLessThan(0.5);
    expect(deltaV.at(-1)).toBeGreaterThan(1726);
  });

  test("with a vertical phase is dearer, and its losses add up", () => {
    const flown = flyDescent(
      { ...pure, touchdownMPerS: 1, vertical: { fromHeightM: 150, fromSpeedMPerS: 12 } },
      engine(3),
    )!;
    expect(flown.deltaVMPerS).toBeGreaterThan(flyDescent({ ...pure, touchdownMPerS: 1 }, engine(3))!.deltaVMPerS);
    // Speed at perilune − touchdown speed + losses, less what turning off the speed along the ground saves the vertical.
    expect(flown.samples.at(-1)!.heightM).toBeCloseTo(0, 6);
    expect(flown.samples.at(-1)!.speedMPerS).toBeCloseTo(1, 9);
    expect(flown.verticalThrottle![0]).toBeGreaterThan(flown.verticalThrottle![1]);
  });

  test("is not possible with thrust below weight", () => {
    expect(flyDescent(pure, engine(0.9))).toBeNull();
  });
});

describe("ascent", () => {
  test("ends level, and on the way to the orbit", () => {
    const flown = flyAscent({ orbitHeightM: 100_000, riseM: 50 }, engine(3))!;
    const end = flown.samples.at(-1)!;
    expect(end.upMPerS).toBeCloseTo(0, 4);
    expect(flown.turnHeightM).toBeGreaterThan(5000);
    // The high point of the ellipse through cut-off is the orbit: the circularisation is small and positive.
    expect(flown.orbitChangeMPerS).toBeGreaterThan(0);
    expect(flown.orbitChangeMPerS).toBeLessThan(23);
  });

  test("tends to the impulsive limit with thrust, for a rise that is short for the thrust", () => {
    const above = [2, 4, 10, 40].map(
      (lunarG) => flyAscent({ orbitHeightM: 100_000, riseM: 1 }, engine(lunarG))!.aboveLimitMPerS,
    );
    for (const [i, value] of above.entries()) expect(value).toBeGreaterThan(i === 0 ? 100 : 0);
    expect(above[1]).toBeLessThan(above[0]!);
    expect(above[2]).toBeLessThan(above[1]!);
    expect(above[2]).toBeLessThan(30);
  });

  test("that clears a height on its coast takes the least: no turn on a fine grid that clears it takes less", () => {
    const [rise, above, orbit] = [30, 15_000, 100_000];
    const { acceleration } = engine(2);
    const flown = flyAscent({ orbitHeightM: orbit, riseM: rise, coastAboveM: above }, engine(2))!;
    // The orbit after cut-off, from its energy and momentum (μ and R of the check values).
    const [mu, radius] = [4902.8e9, 1_737_400];
    const pointsOf = (heightM: number, up: number, along: number): [number, number] => {
      const r = radius + heightM;
      const a = 1 / (2 / r - (up * up + along * along) / mu);
      const e = Math.sqrt(1 - (r * along) ** 2 / (mu * a));
      return [a * (1 - e) - radius, a * (1 + e) - radius];
    };
    const end = flown.samples.at(-1)!;
    const [low, high] = pointsOf(end.heightM, end.upMPerS, end.alongMPerS);
    expect(low).toBeCloseTo(above, 0);
    expect(high).toBeCloseTo(orbit, 0);

    const up = { seconds: 0, heightM: 0, upMPerS: 1e-6, alongMPerS: 0, angleRad: 0 };
    const risen = flyTurn({ acceleration, ispS: 450, direction: 1, start: up, until: (height) => rise - height })!;
    const exhaust = 450 * 9.80665;
    const after = acceleration / (1 - (acceleration * risen.seconds) / exhaust);
    const circular = Math.sqrt(mu / (radius + orbit));
    let cleared = 0;
    for (let kick = 0.02; kick < 0.1; kick += 0.0001) {
      const turned = { ...risen, upMPerS: risen.upMPerS * Math.cos(kick), alongMPerS: risen.upMPerS * Math.sin(kick) };
      const cut = flyTurn({
        acceleration: after,
        ispS: 450,
        direction: 1,
        start: turned,
        until: (height, u, v) =>
          Math.min(height, 2 / (radius + height) - (u * u + v * v) / mu > 0 ? orbit - pointsOf(height, u, v)[1] : -1),
      });
      if (!cut || cut.heightM < 1) continue;
      const [lowest] = pointsOf(cut.heightM, cut.upMPerS, cut.alongMPerS);
      if (lowest < above) continue;
      cleared += 1;
      const burned = -exhaust * Math.log(1 - (acceleration * cut.seconds) / exhaust);
      const atOrbit = circular - ((radius + cut.heightM) * cut.alongMPerS) / (radius + orbit);
      expect(burned + 2 * risen.upMPerS * Math.sin(kick / 2) + atOrbit).toBeGreaterThan(flown.deltaVMPerS - 0.01);
    }
    expect(cleared).toBeGreaterThan(20);
  });

  test("takes less the lower its coast may be, and less than a level cut-off; too high is not possible", () => {
    const deltaV = (lunarG: number, coastAboveM?: number) =>
      flyAscent({ orbitHeightM: 100_000, riseM: 30, ...(coastAboveM !== undefined && { coastAboveM }) }, engine(lunarG))
        ?.deltaVMPerS;
    const falling = [deltaV(2)!, ...[30_000, 15_000, 5000].map((height) => deltaV(2, height)!)];
    expect(falling).toEqual(falling.toSorted((a, b) => b - a));
    expect(falling[0]! - falling[3]!).toBeGreaterThan(8);
    expect(deltaV(4, 40_000)).toBeUndefined();
    // A guess of a flight much like it leads to the same.
    const plan = { orbitHeightM: 100_000, riseM: 30, coastAboveM: 5000 };
    const first = flyAscent(plan, engine(3))!;
    const again = flyAscent(plan, engine(3), { guess: first.root * 1.003, withSamples: false })!;
    expect(again.deltaVMPerS).toBeCloseTo(first.deltaVMPerS, 5);
  });

  test("is not possible below weight", () => {
    expect(flyAscent({ orbitHeightM: 100_000, riseM: 50 }, engine(0.99))).toBeNull();
  });
});
