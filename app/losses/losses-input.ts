/** What may be asked about losses: the inputs of their operations. */
import { z } from "zod";
import { id, instant, rateKgPerDay, ratePerDay } from "../ground/quantity.ts";
import { MAX_PERIODS } from "./months.ts";

export const lossBookInput = z.strictObject({
  planCaseId: id,
  /** Rising instants: each period runs from the end of one to the end of the next. */
  edges: z
    .array(instant)
    .min(2)
    .max(MAX_PERIODS + 1),
  /** Whether predicted losses are set beside the booked ones. */
  withComparison: z.boolean(),
});

export const fitInput = z.strictObject({
  planCaseId: id,
  tankId: id,
  fromAt: instant,
  untilAt: instant,
  fitted: z.enum(["k", "c", "k and c"]),
  /** Where the rate in force changes within the span: readings under another rate set apart, or one rate fitted to all. */
  rateChanges: z.enum(["apart", "as one"]),
  held: z.strictObject({ kPerDay: ratePerDay, cKgPerDay: rateKgPerDay }).nullable(),
  leftOutIds: z.array(id).max(10_000),
});

export const adoptInput = z.strictObject({
  fit: fitInput,
  id,
  /** From when the fitted rate is in force. */
  fromAt: instant,
  /** In this plan case alone, or in all. */
  scope: z.enum(["plan case", "all plan cases"]),
  reason: z.string().min(1).max(120),
});
