/** What a lander weighs without propellant, step by step: dry mass, people, cargo, further stages, drop tanks and cache tanks. */
import type { Lander } from "../entity/lander.ts";
import type { Mission, ProfileStep } from "../entity/profile.ts";
import { refuse, stepLabel } from "./refusal.ts";
import { stageIndex, stagesOf } from "./stage.ts";

export interface Hardware {
  /** Before each step, and at the end; kg. */
  readonly hardware: Float64Array;
  /** Persons aboard before each step, and at the end. */
  readonly persons: readonly number[];
}

/** A rounding slack when cargo taken aboard in parts is put off as a whole, kg. */
const SLACK_KG = 1e-6;

const checkCargo = (lander: Lander, cargo: number, step: string, field: string): void => {
  if (cargo < -SLACK_KG) refuse(`${step} puts off ${(-cargo).toFixed(1)} kg more cargo than was taken aboard`, field);
  if (lander.cargoLimitKg !== null && cargo > lander.cargoLimitKg + SLACK_KG)
    refuse(
      `${step}: ${cargo.toFixed(1)} kg of cargo aboard, the lander carries ${String(lander.cargoLimitKg)} kg`,
      field,
    );
};

/** Runs through the steps forwards. Refuses more cargo or people off than aboard, and cargo beyond the limit. */
export const hardwareMasses = (lander: Lander, steps: readonly ProfileStep[], mission: Mission): Hardware => {
  let cargo = mission.cargoDownKg;
  let people = mission.crew;
  const stages = stagesOf(lander);
  let ownKg = lander.dryKg;
  let attached = stages.slice(1).reduce((sum, stage) => sum + stage.dryKg, 0);
  for (const step of steps) {
    if (step.kind === "jettison") attached += step.massKg;
    if (step.kind === "leave cache") attached += step.tankKg;
  }
  checkCargo(lander, cargo, "departure", "mission.cargoDownKg");
  const hardware = new Float64Array(steps.length + 1);
  const persons: number[] = [];
  const cacheTanks = new Map<string, number>();
  const note = (i: number): void => {
    hardware[i] = ownKg + cargo + people * lander.personKg + attached;
    persons.push(people);
  };
  note(0);
  steps.forEach((step, i) => {
    const name = stepLabel(step, i);
    if (step.kind === "load change") {
      cargo += step.cargoKg;
      if (step.sortieCargo === "put off") cargo -= mission.cargoDownKg;
      if (step.sortieCargo === "take aboard") cargo += mission.cargoUpKg;
      checkCargo(lander, cargo, name, `steps.${String(i)}.cargoKg`);
      people += step.persons;
      if (people < 0) refuse(`${name} puts off more people than are aboard`, `steps.${String(i)}.persons`);
    } else if (step.kind === "jettison") {
      attached -= step.massKg;
    } else if (step.kind === "drop stage") {
      const s = stageIndex(lander, step.stage, name, `steps.${String(i)}.stage`);
      if (s === 0) ownKg = 0;
      else attached -= stages[s]?.dryKg ?? 0;
    } else if (step.kind === "leave cache") {
      attached -= step.tankKg;
      cacheTanks.set(step.cache, step.tankKg);
    } else if (step.kind === "take up cache" && step.keepsTank) {
      attached += cacheTanks.get(step.cache) ?? 0;
    }
    note(i + 1);
  });
  return { hardware, persons };
};
