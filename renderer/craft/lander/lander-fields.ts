/** What each part of a lander's data sheet is given. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { type Lander } from "../../../app/entity/lander.ts";

export interface LanderFieldsProps {
  readonly lander: Lander;
  readonly propellants: PlanSnapshot["propellants"];
  readonly isReadOnly: boolean;
  readonly put: (patch: Partial<Lander>, words: string) => void;
}
