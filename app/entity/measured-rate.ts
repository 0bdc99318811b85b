/** A loss rate adopted from a fit on gauge readings, with what the fit said about itself. */
import { z } from "zod";
import { instant, rateKgPerDay, ratePerDay } from "../ground/quantity.ts";

const interval = z.strictObject({ low: z.number(), high: z.number() });

export const measuredRate = z.strictObject({
  kind: z.literal("measured"),
  kPerDay: ratePerDay,
  cKgPerDay: rateKgPerDay,
  /** Which of the two was fitted; the other was held at the value given. */
  fitted: z.enum(["k", "c", "k and c"]),
  /** 95 % intervals; null for what was held. */
  kInterval: interval.nullable(),
  cInterval: interval.nullable(),
  /** Readings used, and how many of them lie beyond 4 σ. */
  readings: z.int().min(2).max(1e6),
  flagged: z.int().min(0).max(1e6),
  /** Null where no reading is left over to tell. */
  reducedChiSquare: z.number().min(0).nullable(),
  /** The span of the readings. */
  firstAt: instant,
  lastAt: instant,
});

export type MeasuredRate = Readonly<z.infer<typeof measuredRate>>;
