/** Ways to fly the same sortie by different vehicles: each class of lander by each of its profiles, filled at the depot or launched whole. */
import type { CraftClass } from "../entity/craft.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Profile } from "../entity/profile.ts";

/** How the craft comes to the depot: filled there from tankers, or launched with its propellant in it. */
export type Brought = "filled at the depot" | "launched whole";

export interface VehicleWay {
  /** Of class, profile and how it is brought; the same in every run. */
  readonly id: string;
  readonly name: string;
  readonly craftClass: CraftClass;
  readonly profile: Profile;
  readonly brought: Brought;
}

/** Whether the profile drops the lander's own stage: a new craft is needed for every sortie. */
export const isExpended = ({ steps }: Pick<Profile, "steps">): boolean =>
  steps.some((step) => step.kind === "drop stage" && step.stage === undefined);

/** All ways of a plan. Launched whole makes sense only for a craft that does not come home to be filled again. */
export const vehicleWays = ({
  craftClasses,
  profiles,
}: Pick<PlanSnapshot, "craftClasses" | "profiles">): VehicleWay[] =>
  craftClasses
    .filter(({ lander }) => lander !== null)
    .flatMap((craftClass) =>
      profiles
        .filter(({ classId, steps }) => classId === craftClass.id && steps.length > 0)
        .flatMap((profile) => {
          const kinds: readonly Brought[] = isExpended(profile)
            ? ["filled at the depot", "launched whole"]
            : ["filled at the depot"];
          return kinds.map((brought) => ({
            id: `${craftClass.id}/${profile.id}/${brought}`,
            name: `${craftClass.name}, ${profile.name}${isExpended(profile) ? `, ${brought}` : ""}`,
            craftClass,
            profile,
            brought,
          }));
        }),
    );
