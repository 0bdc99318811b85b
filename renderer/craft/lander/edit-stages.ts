/** Changes of a lander's further stages: a fresh one, and a new name carried to every step and engine change that names it. */
import type { Change, Entity } from "../../../app/entity/entities.ts";
import type { FurtherStage, Lander } from "../../../app/entity/lander.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { ProfileStep } from "../../../app/entity/profile.ts";
import { nextName } from "../../names/new-id.ts";

/** A first stage below the lander, like the lander's own; to be corrected, field by field. */
export const freshStage = (lander: Lander): FurtherStage => ({
  name: nextName("Stage 1", new Set((lander.furtherStages ?? []).map(({ name }) => name))),
  dryKg: lander.dryKg,
  engines: lander.engines,
  thrusters: [],
  tanks: lander.tanks.filter(
    ({ propellantId }) => propellantId === lander.engines.oxidiserId || propellantId === lander.engines.fuelId,
  ),
  reservePercent: 0,
});

/** The lander with these further stages; none is said by leaving them out. */
export const withStages = (lander: Lander, stages: readonly FurtherStage[]): Lander => {
  const { furtherStages: _dropped, ...own } = lander;
  return stages.length === 0 ? own : { ...own, furtherStages: [...stages] };
};

const renamed = <T extends { readonly stage?: string | undefined }>(value: T, from: string, to: string): T =>
  value.stage === from ? { ...value, stage: to } : value;

const stepRenamed = (step: ProfileStep, from: string, to: string): ProfileStep => {
  if (step.kind === "stay")
    return renamed({ ...step, losses: step.losses.map((loss) => renamed(loss, from, to)) }, from, to);
  return "stage" in step ? renamed(step, from, to) : step;
};

/** Profiles and craft of a class that name a stage, with its new name. */
export const renameAlong = (
  plan: PlanSnapshot,
  craftClass: Entity<"craftClass">,
  from: string,
  to: string,
): Change[] => {
  const profiles = plan.profiles
    .filter(({ classId }) => classId === craftClass.id)
    .map((profile) => ({ ...profile, steps: profile.steps.map((step) => stepRenamed(step, from, to)) }))
    .filter((after) => JSON.stringify(after) !== JSON.stringify(plan.profiles.find(({ id }) => id === after.id)));
  const craft = plan.craft
    .filter((each) => each.classId === craftClass.id && each.engineChanges.some(({ stage }) => stage === from))
    .map((each) => ({ ...each, engineChanges: each.engineChanges.map((change) => renamed(change, from, to)) }));
  return [
    ...profiles.map((value): Change => ({ op: "put", kind: "profile", value })),
    ...craft.map((value): Change => ({ op: "put", kind: "craft", value })),
  ];
};
