/** A flight: one tanker trip that brings propellant to a depot. */
import { z } from "zod";
import { defaultsOf } from "./defaults.ts";
import { days, id, instant, label, massKg, note } from "../ground/quantity.ts";

export const flightOrigin = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("source"), sourceId: id }),
  z.strictObject({ kind: z.literal("depot"), depotId: id }),
]);

export const flight = z.strictObject({
  id,
  planCaseId: id,
  /** The same flight bears the same key in every plan case; random streams and comparisons hang on it. */
  key: id,
  name: label,
  craftId: id,
  origin: flightOrigin,
  /** Where it goes. */
  depotId: id,
  departAt: instant,
  arriveAt: instant,
  /** Time at the port from arrival. Transfers begin at arrival; one that is not metered takes effect then. */
  berthDays: days,
  loads: z.array(z.strictObject({ propellantId: id, loadedKg: massKg })).max(12),
  /** What happens to propellant that finds the tank at its maximum fill. */
  overflow: z.enum(["keep aboard", "vent"]),
  /** A firm flight is not moved by the scheduler. */
  status: z.enum(["planned", "firm", "departed", "arrived", "lost", "cancelled"]),
  note,
  /** When it was lost; null: it was not, or no record says when. */
  lostAt: instant.nullable().default(null),
});

export type Flight = Readonly<z.infer<typeof flight>>;

/** What a flight has of which no more is said: whoever makes one begins with it. */
export const freshFlight = {
  overflow: "keep aboard",
  status: "planned",
  note: "",
  ...defaultsOf(flight),
} as const satisfies Partial<Flight>;
