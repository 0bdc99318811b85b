/** Can the lit engines carry the craft where they must, hover softly, and lose one of them? */
import { enginesLit } from "./engine-use.ts";
import type { EngineSet } from "../entity/lander.ts";
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
  /** Whose engines; null: the lander's own. */
  readonly stage: string | null;
  readonly thrustToWeight: number;
}

/** Throttle at which the craft hangs still at touchdown mass, with the engines that the burn lights and with others. */
export interface HoverCheck {
  readonly kind: "hover throttle";
  readonly isMet: boolean;
  readonly stepIndex: number;
  readonly enginesLit: number;
  readonly stage: string | null;
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
  readonly stage: string | null;
  readonly throttle: readonly [number, number];
  readonly minimumThrottle: number;
}

export type ThrustCheck = WeightCheck | HoverCheck | VerticalPhaseCheck;

/** Whether the engine runs at a throttle setting. */
const runsAt = (engines: EngineSet, throttle: number): boolean => throttle >= engines.minimumThrottle && throttle <= 1;

/**
 * The checks of one burn; none for a transfer. At descent start a craft need not outweigh gravity in principle, but one
 * that cannot carry itself there has no way to stop sinking, so 1 is the bound there too.
 */
export const checkThrust = (engines: EngineSet, step: BurnStep, leg: Leg): ThrustCheck[] => {
  if (step.phase === "transfer") return [];
  const lit = enginesLit(engines, step);
  const { thrustN, count, minimumThrottle } = engines;
  const { stepIndex, stage } = leg;
  const weight = (kind: WeightCheck["kind"], at: WeightCheck["at"], massKg: number, burning: number): WeightCheck => {
    const thrustToWeight = (thrustN * burning) / (massKg * LUNAR_GRAVITY);
    return { kind, isMet: thrustToWeight > 1, stepIndex, stage, at, enginesLit: burning, thrustToWeight };
  };
  if (step.phase === "ascent")
    return [
      weight("thrust to weight", "lift-off", leg.massBeforeKg, lit),
      weight("one engine out", "lift-off", leg.massBeforeKg, lit - 1),
    ];
  const hover = (burning: number): number => hoverThrottle(leg.massAfterKg, LUNAR_GRAVITY, thrustN * burning);
  const checks: ThrustCheck[] = [
    weight("thrust to weight", "descent start", leg.massBeforeKg, lit),
    weight("thrust to weight", "touchdown", leg.massAfterKg, lit),
    {
      kind: "hover throttle",
      isMet: runsAt(engines, hover(lit)),
      stepIndex,
      stage,
      enginesLit: lit,
      hoverThrottle: hover(lit),
      minimumThrottle,
      withEngines: Array.from({ length: count }, (_, i) => ({
        lit: i + 1,
        hoverThrottle: hover(i + 1),
        canHover: runsAt(engines, hover(i + 1)),
      })),
    },
  ];
  const vertical = leg.flown?.verticalThrottle;
  if (vertical)
    checks.push({
      kind: "vertical phase",
      isMet: vertical.every((throttle) => runsAt(engines, throttle)),
      stepIndex,
      stage,
      throttle: vertical,
      minimumThrottle,
    });
  checks.push(weight("one engine out", "descent start", leg.massBeforeKg, lit - 1));
  checks.push(weight("one engine out", "touchdown", leg.massAfterKg, lit - 1));
  return checks;
};
