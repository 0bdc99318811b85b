/** What is recorded of a flight's departure and arrival, from what stands in the forms: lines of nothing left out. */
import type { Flight } from "../../app/entity/flight.ts";
import { moved } from "./mass-lines.tsx";
import type { ArrivalPrefill, DeparturePrefill } from "./prefill.ts";

export const departureInput = (flight: Flight, entered: DeparturePrefill, note: string) => ({
  flightId: flight.id,
  at: entered.at,
  loads: moved(entered.loads).map(({ propellantId, massKg }) => ({ propellantId, loadedKg: massKg })),
  ...(flight.origin.kind === "depot" ? { drawn: moved(entered.drawn) } : {}),
  note,
});

export const arrivalInput = (flight: Flight, entered: ArrivalPrefill, note: string) => ({
  flightId: flight.id,
  at: entered.at,
  ...(entered.sinceAt === null ? {} : { sinceAt: entered.sinceAt, course: [...entered.course] }),
  taken: moved(entered.taken),
  handoverLoss: moved(entered.handoverLoss),
  leftAboard: moved(entered.leftAboard),
  vented: moved(entered.vented),
  note,
});
