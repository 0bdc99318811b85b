/** The check of the surface stay: whether a lift-off a day earlier or later would need less, nearer to the orbit's plane. */
import { cheaperStay } from "./plane-curve.ts";
import type { Lander } from "../entity/lander.ts";
import { surfaceStayOf } from "./landing.ts";
import type { OffPlane } from "./off-plane.ts";
import type { Mission } from "../entity/profile.ts";
import type { FlownProfile } from "./solve-off-plane.ts";

export interface StayCheck {
  readonly kind: "surface stay";
  readonly isMet: boolean;
  /** The ascent. */
  readonly stepIndex: number;
  readonly stayDays: number;
  /** Off the plane at lift-off, degrees, and what that takes, m/s. */
  readonly offDeg: number;
  readonly mPerS: number;
  readonly takes: OffPlane["liftOff"]["takes"];
  /** The better day, and how much less is loaded then; null: neither is better. */
  readonly better: { readonly stayDays: number; readonly savingKg: number } | null;
}

/** One check where a landing site is stated, none without. */
export const checkStay = (
  lander: Lander,
  profile: FlownProfile,
  mission: Mission,
  offPlane: OffPlane | null,
): readonly StayCheck[] => {
  const stay = surfaceStayOf(profile.steps);
  if (offPlane === null || stay === null) return [];
  const cheaper = cheaperStay(lander, profile, mission);
  const { offDeg, mPerS, takes } = offPlane.liftOff;
  return [
    {
      kind: "surface stay",
      isMet: cheaper === null,
      stepIndex: stay.ascentIndex,
      stayDays: offPlane.stayDays,
      offDeg,
      mPerS,
      takes,
      better: cheaper === null ? null : { stayDays: cheaper.other.stayDays, savingKg: cheaper.savingKg },
    },
  ];
};
