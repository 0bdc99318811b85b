/** Carries a tank's recorded level forward: from the last stated level, through the movements, losing by the loss model. */
import { levelAfter } from "../storage/level.ts";
import { type LossRate, ratePieces } from "../storage/loss-rate.ts";
import type { LevelSegment } from "../storage/segment.ts";
import type { LossPeriod } from "../entity/loss-period.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { TankMovement } from "./books.ts";

/** Whether a movement says what the tank holds after it, whatever was thought before. Only measurements do. */
export const isStating = (movement: TankMovement): boolean => movement.statedKg !== null;

/** Whether a movement books loss and moves no mass. */
export const isBooking = ({ kind }: TankMovement): boolean =>
  kind === "opening" || kind === "reading" || kind === "closing" || kind === "return";

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

/** Evenly, kg/day. */
const rateOfFlow = (movement: TankMovement): number =>
  movement.sinceAt === null ? 0 : (movement.massKg / (movement.at - movement.sinceAt)) * DAY_MS;

/** From one instant to another without a movement: a segment for each constant rate, and the level at the end. */
const decay = (
  from: LevelAt,
  untilAt: number,
  losses: TankLosses,
  fKgPerDay: number,
  segments: LevelSegment[],
): number => {
  let level = from.massKg;
  if (untilAt <= from.at) return level;
  for (const piece of ratePieces(losses.periods, from.at, untilAt, losses.fallback)) {
    const { kPerDay, cKgPerDay, fromAt: startAt, untilAt: endAt } = piece;
    segments.push({ startAt, endAt, m0Kg: level, kPerDay, cKgPerDay, fKgPerDay });
    level = levelAfter(level, kPerDay, cKgPerDay - fKgPerDay, (endAt - startAt) / DAY_MS);
  }
  return level;
};

/** The level just after a movement, from that just before it. */
const after = (movement: TankMovement, beforeKg: number): number => {
  if (movement.statedKg !== null) return movement.statedKg;
  // Boil-off booked from the model left the tank as the model has it.
  if (movement.kind === "closing" || movement.sinceAt !== null) return beforeKg;
  return Math.max(0, beforeKg + movement.massKg);
};

/**
 * The past of one tank from `start` through its movements, in order, to `untilAt`: segments of constant rate, and the
 * level at the end, kg. A stating movement sets the level; another adds to it, never below empty; a metered one flows.
 */
export const carryForward = (
  start: LevelAt,
  movements: readonly TankMovement[],
  losses: TankLosses,
  untilAt: number,
): { readonly segments: readonly LevelSegment[]; readonly endKg: number } => {
  const segments: LevelSegment[] = [];
  const flows = movements.filter((movement) => movement.sinceAt !== null);
  const begins = flows.flatMap(({ sinceAt }) => (sinceAt === null || sinceAt <= start.at ? [] : [sinceAt]));
  const starts = [...new Set(begins)].toSorted((a, b) => a - b);
  let here = start;
  const carry = (at: number): void => {
    const until = Math.min(at, untilAt);
    const running = flows.filter((flow) => (flow.sinceAt ?? Infinity) <= here.at && here.at < flow.at);
    const flow = running.reduce((sum, movement) => sum + rateOfFlow(movement), 0);
    here = { at: until, massKg: decay(here, until, losses, flow, segments) };
  };
  for (const movement of movements) {
    while (starts[0] !== undefined && starts[0] < movement.at) carry(starts.shift() ?? movement.at);
    if (movement.at > untilAt) break;
    if (movement.at > here.at) carry(movement.at);
    here = { at: movement.at, massKg: after(movement, here.massKg) };
  }
  while (starts[0] !== undefined && starts[0] < untilAt) carry(starts.shift() ?? untilAt);
  if (here.at < untilAt) carry(untilAt);
  return { segments, endKg: here.massKg };
};
