/**
 * The invented lander Wren: two stages, spent in one sortie, to be set against Heron. Its descent stage also leaves the halo
 * orbit and stays on the surface; its ascent stage brings crew and samples back and is then dropped. Every number is made
 * up, within what the trade calls usual.
 */
import type { CraftClass } from "../entity/craft.ts";
import type { EngineSet, Lander } from "../entity/lander.ts";
import type { Profile, ProfileStep } from "../entity/profile.ts";
import { heronDirect, heronLander, perDay } from "./heron.ts";

const WREN_CLASS_ID = "wren";
const DESCENT = "Descent stage";

const engines = (count: number, thrustN: number, ispFullS: number): EngineSet => ({
  ...heronLander.engines,
  count,
  thrustN,
  ispFullS,
  ispMinimumS: ispFullS - 12,
  ratedIgnitions: 12,
  ratedBurnSeconds: 1800,
});

const tank = (
  propellantId: string,
  volumeM3: number,
  residualKg: number,
  lossPercent: number,
): Lander["tanks"][number] => ({
  propellantId,
  volumeM3,
  ullagePercent: 5,
  residualKg,
  kPerDay: perDay(lossPercent),
  cKgPerDay: 0,
});

export const wrenLander: Lander = {
  dryKg: 6600,
  engines: engines(2, 44_000, 446),
  thrusters: heronLander.thrusters,
  tanks: [tank("hydrogen", 24, 30, 0.6), tank("oxygen", 8.5, 110, 0.12), tank("hydrazine", 0.7, 8, 0)],
  fuelCells: heronLander.fuelCells,
  crew: heronLander.crew,
  personKg: heronLander.personKg,
  cargoLimitKg: 3000,
  furtherStages: [
    {
      name: DESCENT,
      dryKg: 7800,
      engines: engines(4, 40_000, 448),
      thrusters: [],
      tanks: [tank("hydrogen", 68, 60, 0.5), tank("oxygen", 24, 230, 0.1)],
      reservePercent: 2,
    },
  ],
};

/** Who burns: down to the surface the descent stage, up again the ascent stage, which is left behind when it is back. */
const inStages = (step: ProfileStep): ProfileStep[] => {
  if (step.kind === "burn" && step.phase === "ascent")
    return [
      { kind: "drop stage", name: "part from the descent stage", stage: DESCENT, fate: "left on the surface" },
      step,
    ];
  const isBefore =
    heronDirect.steps.indexOf(step) <
    heronDirect.steps.findIndex((each) => each.kind === "burn" && each.phase === "ascent");
  return step.kind === "burn" && isBefore ? [{ ...step, stage: DESCENT }] : [step];
};

/** The same burns and stays as Heron's, by stages. */
export const wrenTwoStages: Profile = {
  id: "wren-two-stages",
  classId: WREN_CLASS_ID,
  name: "Two stages, spent",
  steps: [
    ...heronDirect.steps.flatMap(inStages),
    { kind: "drop stage", name: "leave the ascent stage", fate: "dropped" },
  ],
  reserve: heronDirect.reserve,
  note: "The descent stage stays on the surface, the ascent stage is dropped at the depot when the crew is off.",
  landing: null,
};

export const wrenClass: CraftClass = {
  id: WREN_CLASS_ID,
  name: "Wren",
  role: "lander",
  propellants: [],
  tripDays: 14,
  berthDays: 0,
  turnaroundDays: 0,
  costPerFlight: 210,
  costUnit: "units",
  // In proportion to what carries a new Heron, by dry mass.
  hardwareKg: 2600,
  note: "Two stages, spent in one sortie; no vehicle of it is planned. Invented.",
  lander: wrenLander,
};
