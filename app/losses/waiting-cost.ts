/** What waiting costs: kilograms, and flights to bring them. What an outage costs: `plan-outage.ts`. */
import { levelAfter, lossOver } from "../storage/level.ts";
import type { LossRate } from "../storage/loss-rate.ts";
import { PlanningError } from "../ground/failure.ts";

export interface WaitingCost {
  readonly lostKg: number;
  readonly levelAfterKg: number;
  /** Flights that bring as much, as a fraction: 0.25 is a quarter of one flight's delivery. Null: nothing is delivered. */
  readonly flights: number | null;
}

const flightsFor = (kg: number, deliveredPerFlightKg: number | null): number | null =>
  deliveredPerFlightKg !== null && deliveredPerFlightKg > 0 ? kg / deliveredPerFlightKg : null;

const checkDays = (days: number): void => {
  if (!(days >= 0)) throw new PlanningError("invalid input", "A span cannot be below 0 days.", "days");
};

/** Loss over `days` of doing nothing, from a level, at one rate. `deliveredPerFlightKg`: what one flight leaves in the tank. */
export const waitingCost = (
  levelKg: number,
  rate: LossRate,
  days: number,
  deliveredPerFlightKg: number | null,
): WaitingCost => {
  checkDays(days);
  const lostKg = lossOver(levelKg, rate.kPerDay, rate.cKgPerDay, 0, days);
  return {
    lostKg,
    levelAfterKg: levelAfter(levelKg, rate.kPerDay, rate.cKgPerDay, days),
    flights: flightsFor(lostKg, deliveredPerFlightKg),
  };
};
