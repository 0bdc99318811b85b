/** Can the lit engines carry the craft where they must, hover softly, and lose one of them? */
import { enginesLit } from "./engine-use.ts";
import type { Lander } from "../entity/lander.ts";
import type { Leg } from "./leg.ts";
import { LUNAR_GRAVITY } from "./moon.ts";
import type { BurnStep } from "../entity/profile.ts";
import { hoverThrottle } from "./rocket-equation.ts";

/** Thrust over weight in lunar g (1.62 m/s²), lit engines at full; met when the craft can be carried. */
export interface WeightCheck {
  readonly kind: "thrust to weight" | "one engine out";
  readonly isMet: boolean;
  readonly stepIndex: number;
  readonly at: "descent start" | "touchdown" | "lift-off";
  readonly enginesLit: number;
  readonly thrustToWeight: number;
}

/** Throttle at which the craft hangs still at touchdown mass, with the engines that the burn lights and with others. */
export interface HoverCheck {
  readonly kind: "hover throttle";
  readonly isMet: boolean;
  readonly stepIndex: number;
  readonly enginesLit: number;
  readonly hoverThrottle: number;
  readonly minimumThrottle: number;
  /** The same with 1, 2, … of the engines lit. */
  readonly withEngines: readonly { readonly lit: number; readonly hoverThrottle: number; readonly canHover: boolean }[];
}

/** Throttle that the computed vertical phase asks for, at its start and end, against the engine's limits. */
export interface VerticalPhaseCheck {
  readonly kind: "vertical phase";
  readonly isMet: boolean;
  readonly stepIndex: number;
  readonly throttle: readonly [number, number];
  readonly minimumThrottle: number;
}

export type ThrustCheck = WeightCheck | HoverCheck | VerticalPhaseCheck;

/** Whether the engine runs at a throttle setting. */
const runsAt = (lander: Lander, throttle: number): boolean =>
  throttle >= lander.engines.minimumThrottle && throttle <= 1;

/**
 * The checks of one burn; none for a transfer. At descent start a craft need not outweigh gravity in principle, but one
 * that cannot carry itself there has no way to stop sinking, so 1 is the bound there too.
 */
export const checkThrust = (lander: Lander, step: BurnStep, leg: Leg): ThrustCheck[] => {
  if (step.phase === "transfer") return [];
  const lit = enginesLit(lander, step);
  const { thrustN, count, minimumThrottle } = lander.engines;
  const { stepIndex } = leg;
  const weight = (kind: WeightCheck["kind"], at: WeightCheck["at"], massKg: number, engines: number): WeightCheck => {
    const thrustToWeight = (thrustN * engines) / (massKg * LUNAR_GRAVITY);
    return { kind, isMet: thrustToWeight > 1, stepIndex, at, enginesLit: engines, thrustToWeight };
  };
  if (step.phase === "ascent")
    return [
      weight("thrust to weight", "lift-off", leg.massBeforeKg, lit),
      weight("one engine out", "lift-off", leg.massBeforeKg, lit - 1),
    ];
  const hover = (engines: number): number => hoverThrottle(leg.massAfterKg, LUNAR_GRAVITY, thrustN * engines);
  const checks: ThrustCheck[] = [
    weight("thrust to weight", "descent start", leg.massBeforeKg, lit),
    weight("thrust to weight", "touchdown", leg.massAfterKg, lit),
    {
      kind: "hover throttle",
      isMet: runsAt(lander, hover(lit)),
      stepIndex,
      enginesLit: lit,
      hoverThrottle: hover(lit),
      minimumThrottle,
      withEngines: Array.from({ length: count }, (_, i) => ({
        lit: i + 1,
        hoverThrottle: hover(i + 1),
        canHover: runsAt(lander, hover(i + 1)),
      })),
    },
  ];
  const vertical = leg.flown?.verticalThrottle;
  if (vertical)
    checks.push({
      kind: "vertical phase",
      isMet: vertical.every((throttle) => runsAt(lander, throttle)),
      stepIndex,
      throttle: vertical,
      minimumThrottle,
    });
  checks.push(weight("one engine out", "descent start", leg.massBeforeKg, lit - 1));
  checks.push(weight("one engine out", "touchdown", leg.massAfterKg, lit - 1));
  return checks;
};
