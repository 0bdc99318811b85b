/** Carries a tank's recorded level forward: from the last stated level, through the movements, losing by the loss model. */
import { levelAfter } from "../forecast/level.ts";
import { type LossRate, ratePieces } from "../forecast/loss-rate.ts";
import type { LevelSegment } from "../forecast/segment.ts";
import type { EntryKind } from "./journal.ts";
import type { LossPeriod } from "./entity/loss-period.ts";
import { DAY_MS } from "./quantity.ts";
import type { TankMovement } from "./store.ts";

/**
 * Entries after which a tank's booked level is its level: the loss up to them is booked. A return is one for the lander's
 * tanks, the only ones that it touches: what was lost on the way counts as burned, what came home is measured.
 */
const statingKinds: ReadonlySet<EntryKind> = new Set<EntryKind>(["opening", "reading", "closing", "return"]);

export const isStating = (movement: TankMovement): boolean => statingKinds.has(movement.kind);

/** What a tank loses, by its periods, and by `fallback` (a lander's docked rate) where none holds. */
export interface TankLosses {
  readonly periods: readonly LossPeriod[];
  readonly fallback: LossRate;
}

/** A level at an instant, kg. */
export interface LevelAt {
  readonly at: number;
  readonly massKg: number;
}

/** From one instant to another without a movement: a segment for each constant rate, and the level at the end. */
const decay = (from: LevelAt, untilAt: number, losses: TankLosses, segments: LevelSegment[]): number => {
  let level = from.massKg;
  if (untilAt <= from.at) return level;
  for (const piece of ratePieces(losses.periods, from.at, untilAt, losses.fallback)) {
    const { kPerDay, cKgPerDay, fromAt: startAt, untilAt: endAt } = piece;
    segments.push({ startAt, endAt, m0Kg: level, kPerDay, cKgPerDay, fKgPerDay: 0 });
    level = levelAfter(level, kPerDay, cKgPerDay, (endAt - startAt) / DAY_MS);
  }
  return level;
};

/**
 * The past of one tank from `start` through its movements, in order, to `untilAt`: segments of constant rate, and the
 * level at the end, kg. A stating movement sets the level; another adds to it, never below empty.
 */
export const carryForward = (
  start: LevelAt,
  movements: readonly TankMovement[],
  losses: TankLosses,
  untilAt: number,
): { readonly segments: readonly LevelSegment[]; readonly endKg: number } => {
  const segments: LevelSegment[] = [];
  let here = start;
  for (const movement of movements) {
    const before = decay(here, movement.at, losses, segments);
    const after = isStating(movement) ? movement.bookKg : Math.max(0, before + movement.massKg);
    here = { at: movement.at, massKg: after };
  }
  return { segments, endKg: decay(here, untilAt, losses, segments) };
};
