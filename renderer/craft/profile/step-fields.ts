/** What the fields of one step of a profile are given. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { ProfileStep } from "../../../app/entity/profile.ts";

export interface StepFieldsProps<S extends ProfileStep = ProfileStep> {
  readonly step: S;
  readonly lander: Lander;
  readonly propellants: PlanSnapshot["propellants"];
  readonly isReadOnly: boolean;
  readonly onChange: (next: S) => void;
}
