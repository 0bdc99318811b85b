/** What a cooler outage, or a month of waiting, costs: kilograms, and flights to bring them. */
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

export interface OutageCost {
  /** With the outage, and without it. */
  readonly during: WaitingCost;
  readonly otherwise: WaitingCost;
  /** What the outage alone costs. */
  readonly extraKg: number;
  readonly extraFlights: number | null;
}

/** What an outage of `days` costs beyond what would have been lost anyway. */
export const outageCost = (
  levelKg: number,
  otherwise: LossRate,
  during: LossRate,
  days: number,
  deliveredPerFlightKg: number | null,
): OutageCost => {
  const withOutage = waitingCost(levelKg, during, days, deliveredPerFlightKg);
  const without = waitingCost(levelKg, otherwise, days, deliveredPerFlightKg);
  const extraKg = withOutage.lostKg - without.lostKg;
  return { during: withOutage, otherwise: without, extraKg, extraFlights: flightsFor(extraKg, deliveredPerFlightKg) };
};
