/** The Δv of a burn between two orbits about the Moon, as a profile states them. */
import { MOON_MU } from "../orbits/moon.ts";
import { apsesOf } from "../orbits/orbit.ts";
import { bestTransfer, planeChangeAloneMPerS, type Transfer } from "../orbits/transfer.ts";
import type { BurnDeltaV } from "../entity/profile.ts";

export type ComputedTransfer = Extract<BurnDeltaV, { readonly kind: "computed transfer" }>;

/** The whole transfer that a burn belongs to. */
export const transferOf = ({ from, to, turnDeg, split }: ComputedTransfer): Transfer =>
  bestTransfer(MOON_MU, apsesOf(from), apsesOf(to), turnDeg, split);

/** Δv of the burn itself, without allowance and margin, m/s. */
export const transferBurnMPerS = (deltaV: ComputedTransfer): number => {
  if (deltaV.burn === "plane change") return planeChangeAloneMPerS(MOON_MU, apsesOf(deltaV.from), deltaV.turnDeg);
  const { departureMPerS, captureMPerS } = transferOf(deltaV);
  return deltaV.burn === "departure" ? departureMPerS : captureMPerS;
};
