/** What a landing site off the orbit's plane costs, over the day of lift-off: picture and figures. */
import { useCallback, useMemo } from "react";
import { planeCurve, type PlaneCurve } from "../../../app/sortie/plane-curve.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { Mission, Profile } from "../../../app/entity/profile.ts";
import type { SortieSheet } from "../../../app/sortie/sheet.ts";
import { formatMass } from "../../format/mass.ts";
import { formatNumber, withUnit } from "../../format/number.ts";
import { Plot } from "../../plot/plot.tsx";
import { planePicture } from "./plane-picture.ts";

const SPAN = { untilDays: 30, steps: 120 } as const;
const notes = [
  "load of the whole sortie, with boil-off and consumables of the stay",
  "two bodies, mean turning of the Moon",
];

const days = (value: number): string => withUnit(formatNumber(value, 2), "days");

const wordsOf = (sheet: SortieSheet, { own, cheapest }: PlaneCurve): string => {
  const crossing = (name: string, cost: NonNullable<SortieSheet["offPlane"]>["landing"]): string =>
    cost.takes === "nothing"
      ? `${name} in the plane`
      : `${name} ${formatNumber(cost.offDeg, 1)}° off the plane: ${cost.takes}, ${withUnit(formatNumber(cost.mPerS, 1), "m/s")} (dog-leg ${cost.dogLegMPerS === null ? "not possible" : withUnit(formatNumber(cost.dogLegMPerS, 1), "m/s")}, plane change ${withUnit(formatNumber(cost.planeChangeMPerS, 1), "m/s")})`;
  const { offPlane } = sheet;
  const parts =
    offPlane === null ? [] : [crossing("Landing", offPlane.landing), crossing("lift-off", offPlane.liftOff)];
  const least =
    cheapest.loadKg < own.loadKg - 1
      ? `least load at a stay of ${days(cheapest.stayDays)}: ${formatMass(own.loadKg - cheapest.loadKg)} less than at ${days(own.stayDays)}`
      : "no other stay within 30 days takes less";
  return `${[...parts, least].join("; ")}.`;
};

interface PlanePlotProps {
  readonly lander: Lander;
  readonly profile: Profile;
  readonly mission: Mission;
  readonly sheet: SortieSheet;
}

export const PlanePlot = ({ lander, profile, mission, sheet }: PlanePlotProps) => {
  const curve = useMemo(
    () => (profile.landing === null ? null : planeCurve(lander, profile, mission, SPAN)),
    [lander, profile, mission],
  );
  const compose = useCallback(
    (size: { width: number; height: number }) => (curve === null ? { ...size, groups: [] } : planePicture(curve, size)),
    [curve],
  );
  if (curve === null || profile.landing === null) return null;
  return (
    <figure className="flight-plot">
      <Plot
        title={`Load by day of lift-off from ${profile.landing.site}: ${profile.name}`}
        notes={notes}
        height={280}
        label={null}
        compose={compose}
      />
      <figcaption>{wordsOf(sheet, curve)}</figcaption>
    </figure>
  );
};
