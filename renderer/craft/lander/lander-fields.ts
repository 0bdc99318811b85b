/** What each part of a lander's data sheet is given. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { type Lander } from "../../../app/entity/lander.ts";

/** What the fields of engines and tanks are given, of the lander's own stage or a further one. */
export interface PartFieldsProps {
  /** Name of the further stage, for headings; null: the lander's own. */
  readonly titled: string | null;
  readonly propellants: PlanSnapshot["propellants"];
  readonly isReadOnly: boolean;
  readonly put: (patch: Partial<Pick<Lander, "engines" | "thrusters" | "tanks">>, words: string) => void;
}

/** A heading with the stage's name, where it is a further one. */
export const partTitle = (titled: string | null, title: string): string =>
  titled === null ? title : `${titled}: ${title.charAt(0).toLowerCase()}${title.slice(1)}`;

export interface LanderFieldsProps {
  readonly lander: Lander;
  readonly propellants: PlanSnapshot["propellants"];
  readonly isReadOnly: boolean;
  readonly put: (patch: Partial<Lander>, words: string) => void;
}
