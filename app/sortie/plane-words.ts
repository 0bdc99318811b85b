/** What a landing site off the orbit's plane costs, in a sentence: for the screen and for paper. */
import { formatMass, type MassUnit } from "../format/mass.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { costOf, type PlaneCurve } from "./plane-curve.ts";
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

const leastWords = ({ own, cheapest }: PlaneCurve, unit: MassUnit): string => {
  const isOnGround = own.launchedKg !== null && cheapest.launchedKg !== null;
  const saved = costOf(own) - costOf(cheapest);
  const what = isOnGround ? "propellant loaded on the ground" : "load";
  if (saved < WORTH_KG) return `no other stay within ${PLANE_SPAN.untilDays} days takes less ${what}`;
  const less = own.loadKg - cheapest.loadKg;
  const aboard = isOnGround
    ? `, ${formatMass(Math.abs(less), unit)} ${less < 0 ? "more" : "less"} aboard at departure`
    : "";
  return `least ${what} at a stay of ${days(cheapest.stayDays)}: ${formatMass(saved, unit)} less than at ${days(own.stayDays)}${aboard}`;
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
