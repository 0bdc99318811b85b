/** The boxes of flights and sorties in pixels: what is drawn, hit and focused comes from these. */
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import type { TimeScale } from "../../../app/picture/time-scale.ts";
import { berthEndAt } from "../model/timeline-model.ts";
import { FLIGHT_ROW, type Place } from "./place.ts";

/** Bars are never thinner than this, so that a short one can be seen and touched. */
const LEAST_WIDTH = 4;

export const FLIGHT_BAR = 14;
export const SORTIE_BAR = 18;

export interface FlightBar {
  readonly flight: Flight;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  /** Arrival, and the end of the berth. */
  readonly arriveX: number;
  readonly endX: number;
}

export interface SortieBar {
  readonly sortie: Sortie;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const flightBar = (flight: Flight, place: Place, scale: TimeScale): FlightBar => {
  const top = place.flightTop.get(flight.id) ?? 0;
  const x = scale.x(flight.departAt);
  const arriveX = scale.x(flight.arriveAt);
  return {
    flight,
    x,
    y: top + (FLIGHT_ROW - FLIGHT_BAR) / 2,
    height: FLIGHT_BAR,
    arriveX,
    endX: Math.max(scale.x(berthEndAt(flight)), x + LEAST_WIDTH),
  };
};

export const sortieBar = (sortie: Sortie, place: Place, scale: TimeScale): SortieBar => {
  const top = place.sortieTop.get(sortie.id) ?? 0;
  const x = scale.x(sortie.loadAt);
  return {
    sortie,
    x,
    y: top,
    width: Math.max(scale.x(sortie.returnAt) - x, LEAST_WIDTH),
    height: SORTIE_BAR,
  };
};
