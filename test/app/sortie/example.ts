/** A small lander and the densities by which its tanks are filled, for the tests of the sortie. */
import type { Lander } from "../../../app/entity/lander.ts";
import type { BurnStep, Mission, Profile, ProfileStep } from "../../../app/entity/profile.ts";

export const densities = [
  { id: "hydrogen", densityKgPerM3: 70.8 },
  { id: "oxygen", densityKgPerM3: 1141 },
  { id: "hydrazine", densityKgPerM3: 1008 },
];

const tank = (propellantId: string, volumeM3: number): Lander["tanks"][number] => ({
  propellantId,
  volumeM3,
  ullagePercent: 5,
  residualKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
});

/** 10 t dry, two engines of 100 kN at 450 s, no losses, no residuals: the rocket equation and nothing else. */
export const plainLander: Lander = {
  dryKg: 10_000,
  engines: {
    count: 2,
    thrustN: 100_000,
    ispFullS: 450,
    ispMinimumS: 450,
    minimumThrottle: 0.1,
    mixtureRatio: 6,
    mixtureSpreadPercent: 0,
    oxidiserId: "oxygen",
    fuelId: "hydrogen",
    ratedIgnitions: 10,
    ratedBurnSeconds: 4000,
  },
  thrusters: [{ name: "small", ispS: 225, thrustN: 400, parts: [{ propellantId: "hydrazine", parts: 1 }] }],
  tanks: [tank("hydrogen", 200), tank("oxygen", 100), tank("hydrazine", 5)],
  fuelCells: [],
  crew: [],
  personKg: 100,
  cargoLimitKg: null,
};

export const burn = (mPerS: number, more: Partial<BurnStep> = {}): BurnStep => ({
  kind: "burn",
  name: "burn",
  phase: "transfer",
  deltaV: { kind: "stated", mPerS, allowanceMPerS: 0, basis: "test" },
  marginPercent: 0,
  enginesLit: null,
  ignitions: 1,
  throttle: 1,
  ...more,
});

export const stay = (days: number, more: Partial<Extract<ProfileStep, { kind: "stay" }>> = {}): ProfileStep => ({
  kind: "stay",
  name: "stay",
  days,
  powerKw: 0,
  crew: null,
  losses: [],
  ...more,
});

export const profileOf = (
  steps: ProfileStep[],
  reserve: Profile["reserve"] = { kind: "mass", lines: [] },
): Pick<Profile, "steps" | "reserve"> => ({ steps, reserve });

export const nothingAboard: Mission = { cargoDownKg: 0, cargoUpKg: 0, crew: 0 };
