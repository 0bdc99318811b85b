/** The integrated descent and ascent of a sheet: plot, losses, and what the allowance is set against. */
import { useCallback } from "react";
import type { Leg } from "../../../app/sortie/leg.ts";
import type { Flown } from "../../../app/sortie/powered/flown.ts";
import type { SortieSheet } from "../../../app/sortie/sheet.ts";
import { formatNumber, withUnit } from "../../format/number.ts";
import { flightPicture } from "./flight-picture.ts";
import { Plot } from "../../plot/plot.tsx";

const speed = (mPerS: number): string => withUnit(formatNumber(mPerS, 1), "m/s");

const notes = ["time in s"];

const FlightPlot = ({ leg, flown }: { leg: Leg; flown: Flown }) => {
  const compose = useCallback((size: { width: number; height: number }) => flightPicture(flown, size), [flown]);
  const words =
    `${leg.name}: ${speed(flown.deltaVMPerS)}, of it ${speed(flown.orbitChangeMPerS)} in orbit, gravity loss ` +
    `${speed(flown.gravityLossMPerS)}, steering ${speed(flown.steeringLossMPerS)}; ` +
    `${speed(flown.aboveLimitMPerS)} above the impulsive limit. ` +
    `${leg.kind === "burn" && flown.verticalThrottle === null && flown.verticalMPerS > 0 ? "Cut-off" : "Ignition"} at ` +
    `${withUnit(formatNumber(flown.turnHeightM / 1000, 1), "km")}, thrust ${formatNumber(flown.thrustToWeight, 2)} times lunar weight.`;
  return (
    <figure className="flight-plot">
      <Plot
        title={`${leg.name}: height, speed and throttle`}
        notes={notes}
        height={280}
        label={null}
        compose={compose}
      />
      <figcaption>{words}</figcaption>
    </figure>
  );
};

export const FlightPlots = ({ sheet }: { sheet: SortieSheet }) => (
  <>{sheet.legs.map((leg) => leg.flown !== null && <FlightPlot key={leg.stepIndex} leg={leg} flown={leg.flown} />)}</>
);
