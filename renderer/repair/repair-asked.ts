/** What a repair is asked with: the choices of the resupply search as far as it has them, and what may happen besides. */
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import type { RepairAsked } from "../../app/resupply/repair-answer.ts";

export const repairAskedBy = (
  { classes, arrivals, isBeforeLoadings, blackouts, goal, untilAt }: ResupplyAsked,
  mishaps: RepairAsked["mishaps"],
): RepairAsked => ({ classes, arrivals, isBeforeLoadings, blackouts, goal, untilAt, mishaps });
