/** A plan case: one alternative plan; and its campaigns. */
import { z } from "zod";
import { days, id, instant, label, note } from "../ground/quantity.ts";

export const planCase = z.strictObject({
  id,
  name: label,
  /** The case it was copied from. */
  basedOnId: id.nullable(),
  /** What a sortie does that cannot be loaded: stands down at once, or waits for the next window at which it can. */
  shortPolicy: z.enum(["stand down", "wait"]),
  /** The forecast ends here. */
  horizonAt: instant,
  /** Place in the list of cases. */
  position: z.int().min(0).max(9999),
  note,
});

export const campaign = z.strictObject({
  id,
  planCaseId: id,
  /** The same campaign bears the same key in every plan case. */
  key: id,
  name: label,
  goal: z.string().max(200),
  /** How long a waiting sortie may hold before it stands down. */
  holdLimitDays: days,
});

export type PlanCase = Readonly<z.infer<typeof planCase>>;
export type Campaign = Readonly<z.infer<typeof campaign>>;
