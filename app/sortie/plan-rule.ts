/** The rule of the plan about profiles: what is saved can be computed. Refuses an edit that breaks one, by name. */
import { PlanningError } from "../ground/failure.ts";
import type { Change, Entity, EntitySet } from "../entity/entities.ts";
import { compileSortie } from "./compile.ts";
import { checkLanding } from "./landing.ts";
import { type DemandPlan, sheetOfSortie } from "./plan-demand.ts";

/** The rows that the rule looks at. */
export type ProfileRows = Pick<EntitySet, "craft" | "craftClass" | "profile" | "propellant" | "sortie">;

/** A fault of the plan, and the row that it lies in. */
export interface ProfileFault {
  readonly kind: "profile" | "sortie";
  readonly id: string;
  readonly message: string;
  /** The place within the row; null: the whole of it. */
  readonly field: string | null;
}

/** With as much cargo and as many people as can be: then only what no sortie could fly is refused. */
const ANY_MISSION = { cargoDownKg: 1e9, cargoUpKg: 0, crew: 100 } as const;

const faultOf = (check: () => unknown): { message: string; field: string | null } | null => {
  try {
    check();
    return null;
  } catch (error) {
    if (error instanceof PlanningError && error.code === "refused") return error;
    throw error;
  }
};

const profileFault = (entities: ProfileRows, profile: Entity<"profile">): ProfileFault | null => {
  const craftClass = entities.craftClass.find(({ id }) => id === profile.classId);
  const lander = craftClass?.lander;
  const fault = lander
    ? faultOf(() => {
        compileSortie({ ...lander, cargoLimitKg: null }, profile, ANY_MISSION);
        checkLanding(profile);
      })
    : { message: "its class of craft has no description of a lander", field: "classId" };
  return (
    fault && {
      kind: "profile",
      id: profile.id,
      message: `The profile "${profile.name}": ${fault.message}.`,
      field: fault.field,
    }
  );
};

const sortieFault = (plan: DemandPlan, sortie: Entity<"sortie">): ProfileFault | null => {
  const fault = faultOf(() => sheetOfSortie(plan, sortie));
  return fault && { kind: "sortie", id: sortie.id, message: `${fault.message}.`, field: "demand" };
};

/** Every fault of profiles and of the sorties that fly them. `concerns` narrows it to rows that may have changed. */
export const profileFaults = (
  entities: ProfileRows,
  concerns: (kind: "profile" | "sortie", id: string) => boolean = () => true,
): ProfileFault[] => {
  const plan: DemandPlan = {
    craft: entities.craft,
    craftClasses: entities.craftClass,
    profiles: entities.profile,
    propellants: entities.propellant,
  };
  return [
    ...entities.profile.filter(({ id }) => concerns("profile", id)).map((profile) => profileFault(entities, profile)),
    ...entities.sortie
      .filter(({ id, demand }) => demand.kind === "profile" && concerns("sortie", id))
      .map((sortie) => sortieFault(plan, sortie)),
  ].filter((fault) => fault !== null);
};

const touchedIds = (changes: readonly Change[]): ReadonlySet<string> =>
  new Set(changes.map((change) => `${change.kind}/${change.op === "put" ? change.value.id : change.id}`));

/**
 * Refuses changes after which a profile or a sortie that they concern (themselves, or by class, craft or profile) cannot
 * be computed. A fault that stood before elsewhere does not block an edit that has nothing to do with it.
 */
export const checkProfiles = (after: ProfileRows, changes: readonly Change[]): void => {
  const touched = touchedIds(changes);
  const isTouched = (kind: string, id: string): boolean => touched.has(`${kind}/${id}`);
  const classTouched = (classId: string | undefined): boolean =>
    classId !== undefined && isTouched("craftClass", classId);
  const profiles = new Map(after.profile.map((profile) => [profile.id, profile]));
  const sorties = new Map(after.sortie.map((sortie) => [sortie.id, sortie]));
  const classOfCraft = new Map(after.craft.map((craft) => [craft.id, craft.classId]));
  const concerns = (kind: "profile" | "sortie", id: string): boolean => {
    if (isTouched(kind, id)) return true;
    if (kind === "profile") return classTouched(profiles.get(id)?.classId);
    const sortie = sorties.get(id);
    if (sortie?.demand.kind !== "profile") return false;
    return (
      isTouched("profile", sortie.demand.profileId) ||
      isTouched("craft", sortie.landerId) ||
      classTouched(classOfCraft.get(sortie.landerId))
    );
  };
  const [fault] = profileFaults(after, concerns);
  if (fault === undefined) return;
  const index = changes.findIndex(
    (change) => change.kind === fault.kind && change.op === "put" && change.value.id === fault.id,
  );
  const field =
    index < 0 ? null : [`changes.${String(index)}.value`, fault.field].filter((part) => part !== null).join(".");
  throw new PlanningError("refused", fault.message, field);
};
