/** The stages of a lander: its own, which carries cargo and crew, and further ones that steps burn and drop. */
import type { EngineSet, Lander, LanderTank, ThrusterSet } from "../entity/lander.ts";
import type { BurnStep, ProfileStep } from "../entity/profile.ts";
import { refuse, stepLabel } from "./refusal.ts";

export interface Stage {
  /** null: the lander's own. */
  readonly name: string | null;
  readonly dryKg: number;
  readonly engines: EngineSet | null;
  readonly thrusters: readonly ThrusterSet[];
  readonly tanks: readonly LanderTank[];
  /** Of its load, held back; the lander's own stage keeps the reserve of the profile instead. */
  readonly reservePercent: number;
}

/** What becomes of a stage in a sortie. */
export type StageFate = "comes home" | Extract<ProfileStep, { readonly kind: "drop stage" }>["fate"];

/** All stages, the lander's own first. */
export const stagesOf = (lander: Lander): readonly Stage[] => {
  const { dryKg, engines, thrusters, tanks, furtherStages } = lander;
  return [{ name: null, dryKg, engines, thrusters, tanks, reservePercent: 0 }, ...(furtherStages ?? [])];
};

/** A stage in messages: "the lander", "the stage \"Descent\"". */
export const stageWords = (name: string | null): string => (name === null ? "the lander" : `the stage "${name}"`);

/** The place of a stage in the description, for messages. */
export const stageField = (index: number): string =>
  index === 0 ? "lander" : `lander.furtherStages.${String(index - 1)}`;

/** The number of the stage that a step names, 0 for the lander's own; refuses one that the lander has not. */
export const stageIndex = (lander: Lander, name: string | undefined, label: string, field: string): number => {
  if (name === undefined) return 0;
  const found = (lander.furtherStages ?? []).findIndex((stage) => stage.name === name);
  return found >= 0 ? found + 1 : refuse(`${label} names the stage "${name}", which the lander has not`, field);
};

/** The engines that a burn lights; refuses a stage without any. */
export const enginesOf = (lander: Lander, step: BurnStep, i: number): EngineSet => {
  const [label, field] = [stepLabel(step, i), `steps.${String(i)}.stage`];
  const stage = stagesOf(lander)[stageIndex(lander, step.stage, label, field)];
  return stage?.engines ?? refuse(`${label} burns the stage "${step.stage ?? ""}", which has no engine`, field);
};

type Drop = Extract<ProfileStep, { readonly kind: "drop stage" }>;

/** Refuses a stage left on the surface by a craft that is not there. */
const checkOnSurface = (steps: readonly ProfileStep[], i: number, label: string): void => {
  const phases = steps.slice(0, i).flatMap((step) => (step.kind === "burn" ? [step.phase] : []));
  if (phases.lastIndexOf("descent") <= phases.lastIndexOf("ascent"))
    refuse(`${label} leaves a stage on the surface, but no descent comes before it`, `steps.${String(i)}.fate`);
};

/** The steps at which stages part, by stage; null: it comes home. Refuses what cannot part there, or twice. */
export const partingSteps = (lander: Lander, steps: readonly ProfileStep[]): readonly (number | null)[] => {
  const stages = stagesOf(lander);
  stages.forEach(({ name }, s) => {
    if (stages.findIndex((other) => other.name === name) !== s)
      refuse(`the lander has two stages of the name "${name ?? ""}"`, `${stageField(s)}.name`);
  });
  const partsAt: (number | null)[] = stages.map(() => null);
  const part = (step: Drop, i: number): void => {
    const [label, field] = [stepLabel(step, i), `steps.${String(i)}.stage`];
    const s = stageIndex(lander, step.stage, label, field);
    if (partsAt[s] !== null) refuse(`${label} drops ${stageWords(step.stage ?? null)} a second time`, field);
    if (step.fate === "left on the surface") checkOnSurface(steps, i, label);
    if (s === 0) {
      const still = stages.find((_, other) => other > 0 && partsAt[other] === null);
      if (i < steps.length - 1) refuse(`${label} drops the lander itself and must be the last step`, field);
      if (still) refuse(`${label} drops the lander itself while ${stageWords(still.name)} is still on it`, field);
    }
    partsAt[s] = i;
  };
  steps.forEach((step, i) => {
    if (step.kind === "drop stage") part(step, i);
  });
  return partsAt;
};
