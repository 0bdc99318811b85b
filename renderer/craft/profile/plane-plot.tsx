/** What a landing site off the orbit's plane costs, over the day of lift-off: picture and figures. */
import { useCallback, useMemo } from "react";
import { screenLook } from "../../../app/picture/look.ts";
import { planePicture } from "../../../app/picture/plane-picture.ts";
import { planeCurve } from "../../../app/sortie/plane-curve.ts";
import { PLANE_NOTES, PLANE_SPAN, planeSentence } from "../../../app/sortie/plane-words.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { Mission, Profile } from "../../../app/entity/profile.ts";
import type { SortieSheet } from "../../../app/sortie/sheet.ts";
import { Plot } from "../../plot/plot.tsx";

interface PlanePlotProps {
  readonly lander: Lander;
  readonly profile: Profile;
  readonly mission: Mission;
  readonly sheet: SortieSheet;
  /** Kilograms loaded on the ground per kilogram handed over, by propellant. */
  readonly launchedPerKg: ReadonlyMap<string, number>;
}

export const PlanePlot = ({ lander, profile, mission, sheet, launchedPerKg }: PlanePlotProps) => {
  const curve = useMemo(
    () => (profile.landing === null ? null : planeCurve(lander, profile, mission, PLANE_SPAN, launchedPerKg)),
    [lander, profile, mission, launchedPerKg],
  );
  const compose = useCallback(
    (size: { width: number; height: number }) =>
      curve === null ? { ...size, groups: [] } : planePicture(curve, "t", size, screenLook),
    [curve],
  );
  if (curve === null || profile.landing === null) return null;
  return (
    <figure className="flight-plot">
      <Plot
        title={`Load by day of lift-off from ${profile.landing.site}: ${profile.name}`}
        notes={PLANE_NOTES}
        height={280}
        label={null}
        compose={compose}
      />
      <figcaption>{planeSentence(sheet, curve)}</figcaption>
    </figure>
  );
};
