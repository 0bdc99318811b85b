/**
 * A loss period: what a tank loses between two instants, and why that is believed.
 * Where periods overlap, the one that began last is in force; a period without a start began before all others.
 * So an outage laid over a base rate ends by itself, and a rate adopted from a date replaces what was before.
 */
import { z } from "zod";
import { id, instant, note, rateKgPerDay, ratePerDay } from "../ground/quantity.ts";
import { heatBalance } from "./heat-balance.ts";
import { measuredRate } from "./measured-rate.ts";

/** Where k and c come from. Each further kind of basis is one more member here. */
export const lossBasis = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("stated"), kPerDay: ratePerDay, cKgPerDay: rateKgPerDay }),
  heatBalance,
  measuredRate,
]);

export const lossPeriod = z.strictObject({
  id,
  tankId: id,
  /** null: holds for every plan case (what is known of the tank); else a plan of this case only. */
  planCaseId: id.nullable(),
  fromAt: instant.nullable(),
  untilAt: instant.nullable(),
  basis: lossBasis,
  /** "cooler running", "cooler outage", "hot attitude" … */
  reason: z.string().min(1).max(120),
  note,
});

export type LossBasis = Readonly<z.infer<typeof lossBasis>>;
export type LossPeriod = Readonly<z.infer<typeof lossPeriod>>;
