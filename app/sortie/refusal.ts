/** How a sortie that cannot be meant is refused: by the name of the step and what is wrong with it. */
import { PlanningError } from "../ground/failure.ts";
import type { ProfileStep } from "../entity/profile.ts";

/** Throws "refused"; `field` is the place in the input, "steps.3.cache". */
export const refuse = (message: string, field: string): never => {
  throw new PlanningError("refused", message, field);
};

/** "step 3 (landing)", for messages. */
export const stepLabel = (step: ProfileStep, index: number): string => `step ${String(index + 1)} (${step.name})`;
