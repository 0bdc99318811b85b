/** All ways across the vehicles of a plan, what each takes from the ground, and how each compares with the first that can be flown. */
import { PlanningError } from "../ground/failure.ts";
import { type BreakEven, breakEven } from "./break-even.ts";
import { type Lifted, liftedBy, type LiftedBy, overCampaign, type WayLifted } from "./lifted.ts";
import type { VehicleWay } from "./vehicle-way.ts";

export interface WayAcross {
  readonly way: VehicleWay;
  /** null: it cannot be flown or supplied; `refusal` says why. */
  readonly lifted: WayLifted | null;
  readonly refusal: string | null;
  /** Over the campaign's sorties. */
  readonly campaign: Lifted | null;
  /** Against the reference (a); null for the reference itself and where either cannot be flown. */
  readonly against: BreakEven | null;
}

export interface WaysAcross {
  readonly sorties: number;
  /** The reference: what the others are compared with; null: nothing can be flown. */
  readonly reference: WayLifted | null;
  readonly ways: readonly WayAcross[];
}

const tried = (way: VehicleWay, by: LiftedBy): WayLifted | string => {
  try {
    return liftedBy(way, by);
  } catch (error) {
    if (error instanceof PlanningError && error.code === "refused") return error.message;
    throw error;
  }
};

/** Compares ways over a campaign of so many sorties; `referenceId` names the one that the others are set against. */
export const waysAcross = (
  ways: readonly VehicleWay[],
  by: LiftedBy,
  sorties: number,
  referenceId: string | null = null,
): WaysAcross => {
  const flown = ways.map((way) => ({ way, answer: tried(way, by) }));
  const able = flown.flatMap(({ answer }) => (typeof answer === "string" ? [] : [answer]));
  const reference = able.find(({ way }) => way.id === referenceId) ?? able[0] ?? null;
  return {
    sorties,
    reference,
    ways: flown.map(({ way, answer }): WayAcross => {
      if (typeof answer === "string") return { way, lifted: null, refusal: answer, campaign: null, against: null };
      const against = reference === null || answer === reference ? null : breakEven(reference, answer);
      return { way, lifted: answer, refusal: null, campaign: overCampaign(answer, sorties), against };
    }),
  };
};
