/** What a landing site off the orbit's plane costs, in a sentence: for the screen and for paper. */
import { formatMass, type MassUnit } from "../format/mass.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { costOf, type PlaneCurve, type PlanePoint } from "./plane-curve.ts";
import type { SortieSheet } from "./sheet.ts";

/** The stays that the curve looks at: from lift-off at once to a little more than a turn of the Moon. */
export const PLANE_SPAN = { untilDays: 30, steps: 120 } as const;

/** What stands with the curve wherever it is drawn. */
export const PLANE_NOTES = [
  "load of the whole sortie, with boil-off and consumables of the stay",
  "two bodies, mean turning of the Moon",
] as const;

const days = (value: number): string => withUnit(formatNumber(value, 2), "days");
const speed = (mPerS: number): string => withUnit(formatNumber(mPerS, 1), "m/s");

type Crossing = NonNullable<SortieSheet["offPlane"]>["landing"];

const crossingWords = (name: string, { takes, offDeg, mPerS, dogLegMPerS, planeChangeMPerS }: Crossing): string => {
  if (takes === "nothing") return `${name} in the plane`;
  const dogLeg = dogLegMPerS === null ? "not possible" : speed(dogLegMPerS);
  return `${name} ${formatNumber(offDeg, 1)}° off the plane: ${takes}, ${speed(mPerS)} (dog-leg ${dogLeg}, plane change ${speed(planeChangeMPerS)})`;
};

/** Less than this is not worth a word, kg. */
const WORTH_KG = 1;

/** Stays between shorter and longer ones that take more: where the orbit passes over the site again. */
const valleys = ({ points }: PlaneCurve): readonly PlanePoint[] =>
  points.filter((point, i) => {
    const [before, after] = [points[i - 1], points[i + 1]];
    return before && after && costOf(point) < costOf(before) && costOf(point) <= costOf(after);
  });

const leastWords = (curve: PlaneCurve, unit: MassUnit): string => {
  const { own, cheapest } = curve;
  const isOnGround = own.launchedKg !== null && cheapest.launchedKg !== null;
  const what = isOnGround ? "propellant loaded on the ground" : "load";
  const saved = (point: PlanePoint): number => costOf(own) - costOf(point);
  const distance = ({ stayDays }: PlanePoint): number => Math.abs(stayDays - own.stayDays);
  const near = valleys(curve)
    .filter((point) => saved(point) >= WORTH_KG)
    .toSorted((a, b) => distance(a) - distance(b))[0];
  const least = saved(cheapest) < WORTH_KG || cheapest.stayDays === near?.stayDays ? null : cheapest;
  const parts = [
    ...(near
      ? [
          `less ${what} by ${formatMass(saved(near), unit)} at the nearest stay that suits the orbit, ${days(near.stayDays)}`,
        ]
      : []),
    ...(least
      ? [`least ${what} of all at a stay of ${days(least.stayDays)}, less by ${formatMass(saved(least), unit)}`]
      : []),
  ];
  if (parts.length === 0) return `no other stay within ${PLANE_SPAN.untilDays} days takes less ${what}`;
  return `against the profile's stay of ${days(own.stayDays)}: ${parts.join("; ")}`;
};

/** How far the site lies off the plane at landing and lift-off, what that takes, and the stay that takes least. */
export const planeSentence = (
  { offPlane }: Pick<SortieSheet, "offPlane">,
  curve: PlaneCurve,
  unit: MassUnit = "auto",
): string => {
  const crossings =
    offPlane === null ? [] : [crossingWords("Landing", offPlane.landing), crossingWords("lift-off", offPlane.liftOff)];
  return `${[...crossings, leastWords(curve, unit)].join("; ")}.`;
};
