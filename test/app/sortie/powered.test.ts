/** Integrated descent and ascent: where they start and end, and what they tend to. */
import { describe, expect, test } from "vitest";
import { impulsiveLimitMPerS } from "../../../app/sortie/moon.ts";
import { flyAscent } from "../../../app/sortie/powered/ascent.ts";
import { flyDescent } from "../../../app/sortie/powered/descent.ts";

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

  test("is not possible below weight", () => {
    expect(flyAscent({ orbitHeightM: 100_000, riseM: 50 }, engine(0.99))).toBeNull();
  });
});
