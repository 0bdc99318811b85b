/** Powered descent and hover against an independent integration and closed forms. */
import { expect, test } from "vitest";
import { engineLife } from "../../app/sortie/life.ts";
import { flyDescent } from "../../app/sortie/powered/descent.ts";
import { flyTurn } from "../../app/sortie/powered/gravity-turn.ts";
import { hoverThrottle } from "../../app/sortie/rocket-equation.ts";
import { sortieSheet } from "../../app/sortie/sheet.ts";
import { burn, densities, nothingAboard, plainLander, profileOf } from "../app/sortie/example.ts";

// An independent integration of the pure gravity turn at Isp 450 s from a 100 km circular orbit (insertion plus braking to
// 5 m/s at the surface; thrust-to-weight in lunar g of 1.62 m/s² at ignition), made outside this project; 0.3 %.
test.each([
  [2, 1857, 38],
  [3, 1779, 16],
  [4, 1753, 9],
  [6, 1736, 4],
])("at %d lunar g of thrust a descent takes %d m/s from %d km", (thrustToWeight, deltaV, ignitionKm) => {
  const flown = flyDescent(
    { orbitHeightM: 100_000, touchdownMPerS: 5, vertical: null },
    { acceleration: thrustToWeight * 1.62, throttle: 1, ispAt: () => 450 },
  );
  expect(Math.abs((flown?.deltaVMPerS ?? 0) / deltaV - 1)).toBeLessThan(0.003);
  expect((flown?.turnHeightM ?? 0) / 1000).toBeCloseTo(ignitionKm, -0.31);
});

// F: a stop at constant mass from v, h = v²/(2(T/m − g)): 5000 kg, 17.6 kN, 100 m/s (g 1.62, P: NSSDCA Moon fact sheet)
// → 2631.579 m, 52.6316 s, gravity loss 85.263 m/s. The integration takes g from μ and R (1.6242 at the surface, and less
// above), hence 0.3 %.
test("a vertical stop from 100 m/s takes the height, time and gravity loss of the closed form", () => {
  const end = flyTurn({
    acceleration: 17_600 / 5000,
    ispS: 1e9,
    direction: -1,
    start: { seconds: 0, heightM: 2631.579, upMPerS: -100, alongMPerS: 0, angleRad: 0 },
    until: (_height, up, along) => Math.hypot(up, along) - 0.01,
  });
  expect(Math.abs(end?.heightM ?? 1e9)).toBeLessThan(0.003 * 2631.579);
  expect(Math.abs((end?.seconds ?? 0) / 52.6316 - 1)).toBeLessThan(0.003);
  expect(Math.abs(((end?.seconds ?? 0) * 3.52 - 100) / 85.263 - 1)).toBeLessThan(0.006);
});

test("hover throttle is weight over thrust: 5000 kg on 17.6 kN hang at 46 %", () => {
  expect(hoverThrottle(5000, 1.62, 17_600)).toBeCloseTo(0.4602, 4);
});

// C: common practice, no source.
test("an engine that can only run at 100 % cannot hold a soft touchdown; one that throttles to 7 % can", () => {
  const landing = profileOf([burn(2000, { phase: "descent" })]);
  const hoverOf = (minimumThrottle: number) => {
    const lander = { ...plainLander, engines: { ...plainLander.engines, minimumThrottle } };
    return sortieSheet(lander, landing, nothingAboard, densities).checks.find(({ kind }) => kind === "hover throttle");
  };
  const fixed = hoverOf(1);
  expect(fixed).toMatchObject({ isMet: false, minimumThrottle: 1 });
  // 10 t × 1.62 m/s² on 200 kN.
  expect(fixed?.kind === "hover throttle" ? fixed.hoverThrottle : 0).toBeCloseTo(0.081, 6);
  expect(hoverOf(0.07)).toMatchObject({ isMet: true });
});

test("ten rated ignitions at three a sortie fall due at the fourth", () => {
  const uses = [1, 2, 3, 4, 5].map((n) => ({
    sortieId: `s${String(n)}`,
    landerId: "one",
    at: n,
    burns: [{ lit: 2, engineNumbers: null, ignitions: 3, burnSeconds: 600 }],
  }));
  const rating = () => ({ count: 2, ratedIgnitions: 10, ratedBurnSeconds: null });
  const [life] = engineLife(uses, [], rating);
  expect(life?.dueBefore?.sortieId).toBe("s4");
  const [changed] = engineLife(uses, [{ landerId: "one", at: 4, engineNumbers: null }], rating);
  expect(changed?.dueBefore).toBeNull();
  expect(changed?.rows.map(({ ignitions }) => ignitions)).toEqual([3, 6, 9, 3, 6]);
});
