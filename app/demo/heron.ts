/**
 * The invented lander Heron: a single-stage hydrogen-oxygen lander of about 60 t full with hydrazine thrusters, and the
 * ways in which it can fly a sortie. Every number is made up, within what the trade calls usual.
 */
import type { Lander } from "../entity/lander.ts";
import type { TankWall } from "../entity/craft.ts";
import type { BurnStep, Profile, ProfileStep } from "../entity/profile.ts";

export const HERON_CLASS_ID = "heron";

/** A share lost a day, compound, as a rate: k = −ln(1 − r). */
export const perDay = (percent: number): number => -Math.log1p(-percent / 100);

export const heronLander: Lander = {
  dryKg: 12_800,
  engines: {
    count: 4,
    thrustN: 66_000,
    ispFullS: 450,
    ispMinimumS: 438,
    minimumThrottle: 0.12,
    mixtureRatio: 5.8,
    mixtureSpreadPercent: 1,
    oxidiserId: "oxygen",
    fuelId: "hydrogen",
    ratedIgnitions: 45,
    ratedBurnSeconds: 6000,
  },
  thrusters: [{ name: "attitude", ispS: 225, thrustN: 1800, parts: [{ propellantId: "hydrazine", parts: 1 }] }],
  tanks: [
    { propellantId: "hydrogen", volumeM3: 106, ullagePercent: 5, residualKg: 90, kPerDay: perDay(0.4), cKgPerDay: 0 },
    { propellantId: "oxygen", volumeM3: 35, ullagePercent: 3, residualKg: 400, kPerDay: perDay(0.08), cKgPerDay: 0 },
    { propellantId: "hydrazine", volumeM3: 0.9, ullagePercent: 4, residualKg: 12, kPerDay: 0, cKgPerDay: 0 },
  ],
  // Fuel cells at 0.90 V; oxygen for breathing after NASA/TP-2015-218570/REV2, table 3-31 (as quoted elsewhere).
  fuelCells: [
    { propellantId: "hydrogen", kgPerKwh: 0.04179 },
    { propellantId: "oxygen", kgPerKwh: 0.33164 },
  ],
  crew: [{ propellantId: "oxygen", kgPerPersonDay: 0.895 }],
  personKg: 160,
  cargoLimitKg: 3000,
};

/** Between sorties the tanks' walls are not kept cold: each top-up cools them first. Masses and temperatures are invented. */
export const heronWalls: Readonly<Record<"hydrogen" | "oxygen", TankWall>> = {
  hydrogen: { massKg: 640, metal: "aluminium", temperatureK: 110 },
  oxygen: { massKg: 260, metal: "aluminium", temperatureK: 150 },
};

/** Δv after Evans and Graham (2020), table 4, in m/s. */
const basis = "Evans and Graham, Acta Astronautica 177 (2020) 351, table 4";

const burn = (
  name: string,
  phase: BurnStep["phase"],
  mPerS: number,
  ignitions: number,
  more: Partial<Pick<BurnStep, "marginPercent" | "deltaV" | "enginesLit" | "throttle">> = {},
): BurnStep => ({
  kind: "burn",
  name,
  phase,
  deltaV: { kind: "stated", mPerS, allowanceMPerS: 0, basis },
  marginPercent: 0,
  enginesLit: null,
  ignitions,
  throttle: 1,
  ...more,
});

const trim = (name: string, mPerS: number): ProfileStep => ({
  kind: "thruster burn",
  name,
  system: "attitude",
  amount: { kind: "delta-v", mPerS },
  marginPercent: 10,
});

const stay = (name: string, days: number, powerKw: number): ProfileStep => ({
  kind: "stay",
  name,
  days,
  powerKw,
  crew: null,
  losses: [],
});

const cargo = (name: string, sortieCargo: "put off" | "take aboard"): ProfileStep => ({
  kind: "load change",
  name,
  cargoKg: 0,
  sortieCargo,
  persons: 0,
});

const outbound = [
  trim("undock and back away", 5),
  // A transfer between orbits is two burns: a departure and a capture.
  burn("leave the halo orbit, enter low orbit", "transfer", 740, 2),
  stay("coast to low orbit", 1, 3),
];
const surface = [cargo("unload", "put off"), stay("on the surface", 12, 4), cargo("load samples", "take aboard")];
const homeward = [
  burn("leave low orbit, enter the halo orbit", "transfer", 850, 2),
  stay("coast to the depot", 1, 3),
  trim("rendezvous and docking", 45),
];

const descent = burn("descent and landing", "descent", 2076, 2, { marginPercent: 5 });
const ascent = burn("ascent to low orbit", "ascent", 1874, 2, { marginPercent: 5 });

const reserve: Profile["reserve"] = { kind: "percent of load", percent: 2 };

/** Down and up again with all its propellant aboard. */
export const heronDirect: Profile = {
  id: "heron-direct",
  classId: HERON_CLASS_ID,
  name: "Single stage",
  steps: [...outbound, descent, ...surface, ascent, ...homeward],
  reserve,
  note: "Carries the propellant for the way home down to the surface and up again.",
  landing: null,
};

/** The same, with what the way home takes left in low orbit. */
export const heronCached: Profile = {
  id: "heron-cached",
  classId: HERON_CLASS_ID,
  name: "Return propellant cached",
  steps: [
    ...outbound,
    {
      kind: "leave cache",
      name: "leave the cache",
      cache: "low orbit",
      tankKg: 350,
      tanks: [
        { propellantId: "hydrogen", volumeM3: 17, kPerDay: perDay(0.6), cKgPerDay: 0 },
        { propellantId: "oxygen", volumeM3: 5.5, kPerDay: perDay(0.1), cKgPerDay: 0 },
      ],
    },
    descent,
    ...surface,
    ascent,
    {
      kind: "take up cache",
      name: "take up the cache",
      cache: "low orbit",
      keepsTank: true,
      arriveWith: [
        { propellantId: "hydrogen", massKg: 60 },
        { propellantId: "oxygen", massKg: 300 },
      ],
    },
    ...homeward,
  ],
  reserve,
  note: "Needs a rendezvous in low orbit on the way up: if the cache is missed, the lander cannot come home.",
  landing: null,
};

/** Descent and ascent integrated instead of taken from the published budget; the allowance is what the approach takes. */
export const heronIntegrated: Profile = {
  id: "heron-integrated",
  classId: HERON_CLASS_ID,
  name: "Single stage, integrated landing",
  steps: [
    ...outbound,
    burn("descent and landing", "descent", 0, 2, {
      marginPercent: 5,
      deltaV: {
        kind: "computed descent",
        orbitKm: 100,
        touchdownMPerS: 1,
        vertical: { fromHeightM: 150, fromSpeedMPerS: 12 },
        allowanceMPerS: 200,
      },
    }),
    ...surface,
    // At half thrust: at full the engines are out before it is above the hills, and no coast clears them.
    burn("ascent to low orbit", "ascent", 0, 2, {
      marginPercent: 5,
      throttle: 0.5,
      deltaV: { kind: "computed ascent", orbitKm: 100, riseM: 30, coastAboveKm: 12, allowanceMPerS: 30 },
    }),
    ...homeward,
  ],
  reserve,
  note: "The allowance covers approach, redesignation and hover, which a gravity turn does not hold. The ascent clears 12 km of terrain (invented).",
  landing: null,
};

/** The same sortie to a site off the pole: the plane of its low orbit passes over it at landing, and again half a turn of the Moon later. */
export const heronRidge: Profile = {
  ...heronDirect,
  id: "heron-ridge",
  name: "Ridge site",
  note: "The site is invented. After 12 days on it the orbit has not come back over it yet: see the curve over the day of lift-off.",
  landing: {
    site: "Cairn ridge",
    latitudeDeg: -84.5,
    longitudeDeg: 20,
    orbitKm: 100,
    inclinationDeg: 90,
    passes: "north",
    landsAfterPassDays: 0,
    dogLegLimitDeg: 3,
  },
};

/** One tonne of cargo down, samples up, two persons. */
export const heronMission = { cargoDownKg: 1000, cargoUpKg: 100, crew: 2 } as const;
