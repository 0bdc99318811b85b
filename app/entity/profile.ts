/** A sortie profile: the ordered steps from leaving the depot to being back, and the reserve to come back with. */
import { z } from "zod";
import { heights } from "../orbits/orbit.ts";
import { landing } from "./landing-site.ts";
import { days, engineNumbers, id, label, massKg, note, rateKgPerDay, ratePerDay } from "../ground/quantity.ts";

const speed = z.number().min(0).max(20_000);
const percent = z.number().min(0).max(100);
/** Added to Δv for what neither the source nor the integration holds: approach, redesignation, hover. m/s */
const allowanceMPerS = speed;

/** Name of one of the lander's further stages; left out: its own. */
const stage = label.optional();

/** Where a burn's Δv comes from. */
export const burnDeltaV = z.discriminatedUnion("kind", [
  /** Given; `basis` says by whom. */
  z.strictObject({ kind: z.literal("stated"), mPerS: speed, allowanceMPerS, basis: z.string().max(200) }),
  /** Integrated: from a circular orbit to touchdown. */
  z.strictObject({
    kind: z.literal("computed descent"),
    orbitKm: z.number().min(5).max(1000),
    touchdownMPerS: z.number().min(0.1).max(50),
    /** Straight down from this height and speed at constant deceleration; null: the gravity turn ends at the surface. */
    vertical: z
      .strictObject({ fromHeightM: z.number().min(1).max(5000), fromSpeedMPerS: z.number().min(0.2).max(200) })
      .nullable(),
    allowanceMPerS,
  }),
  /** Integrated: from lift-off to a circular orbit. */
  z.strictObject({
    kind: z.literal("computed ascent"),
    orbitKm: z.number().min(5).max(1000),
    /** Straight up to this height first, m. */
    riseM: z.number().min(1).max(5000),
    /** The coast to the orbit stays above this height, km, by the turn that takes least; left out: it ends level. */
    coastAboveKm: z.number().min(0).max(1000).optional(),
    allowanceMPerS,
  }),
  /** One of the two burns of a transfer between orbits about the Moon, or the plane turned alone; impulsive. */
  z.strictObject({
    kind: z.literal("computed transfer"),
    from: heights,
    to: heights,
    /** The angle between the two planes. */
    turnDeg: z.number().min(0).max(180),
    /** In which burn the plane is turned: split for the least Δv, or all in one. */
    split: z.enum(["best", "departure", "capture"]),
    /** Plane change: alone in the first orbit, where that is slowest. */
    burn: z.enum(["departure", "capture", "plane change"]),
    /** For what a burn of finite length loses. */
    allowanceMPerS,
    /** What somebody states for the same burn, to be seen beside it; null: nobody. */
    stated: z.strictObject({ mPerS: speed, basis: z.string().max(200) }).nullable(),
  }),
]);

export const burnStep = z.strictObject({
  kind: z.literal("burn"),
  name: label,
  /** Whose engines burn. */
  stage,
  /** A descent ends on the surface, an ascent starts there: that is where thrust is held against weight. */
  phase: z.enum(["transfer", "descent", "ascent"]),
  deltaV: burnDeltaV,
  /** On top of Δv and allowance, per cent; counted as burned. */
  marginPercent: percent,
  /** How many engines burn; null: all. */
  enginesLit: z.int().min(1).max(20).nullable(),
  /** Which ones, counted from 1; left out: the rule of the engine set chooses. */
  engineNumbers: engineNumbers.optional(),
  /** Starts of each engine that burns. */
  ignitions: z.int().min(0).max(100),
  /** Share of full thrust. */
  throttle: z.number().gt(0, "throttle must be above 0").max(1),
});

export const thrusterStep = z.strictObject({
  kind: z.literal("thruster burn"),
  name: label,
  /** Whose thrusters burn. */
  stage,
  /** Name of the stage's thruster system. */
  system: label,
  amount: z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("delta-v"), mPerS: speed }),
    z.strictObject({ kind: z.literal("mass"), massKg }),
  ]),
  marginPercent: percent,
});

export const stayStep = z.strictObject({
  kind: z.literal("stay"),
  name: label,
  /** From whose tanks crew and fuel cells take what they need. */
  stage,
  days,
  /** Power drawn from the fuel cells, kW. */
  powerKw: z.number().min(0).max(10_000),
  /** Persons living from the lander's tanks; null: those aboard. */
  crew: z.int().min(0).max(100).nullable(),
  /** Loss rates during this stay where they differ from the lander's. */
  losses: z
    .array(
      z.strictObject({
        /** Whose tank. */
        stage,
        propellantId: id,
        kPerDay: ratePerDay,
        cKgPerDay: rateKgPerDay,
      }),
    )
    .max(48),
});

export const loadChangeStep = z.strictObject({
  kind: z.literal("load change"),
  name: label,
  /** kg taken aboard (+) or put off (−), the same on every sortie. */
  cargoKg: z.number().min(-1e7).max(1e7),
  /** What happens here to the cargo that a sortie states: what it takes down is put off, what it brings up comes aboard. */
  sortieCargo: z.enum(["none", "put off", "take aboard"]),
  /** Persons who come aboard (+) or leave (−). */
  persons: z.int().min(-100).max(100),
});

export const jettisonStep = z.strictObject({
  kind: z.literal("jettison"),
  name: label,
  /** What is dropped, without what is left in it, kg. It is aboard from the start. */
  massKg,
  /** Tank volume that goes with it, and what stays in it. */
  tanks: z.array(z.strictObject({ propellantId: id, volumeM3: z.number().gt(0).max(1e5), residualKg: massKg })).max(12),
});

/** A whole stage parts from the rest, with its residual, reserve and allowance in it. The lander's own: only at the end. */
export const dropStageStep = z.strictObject({
  kind: z.literal("drop stage"),
  name: label,
  /** Which one parts. */
  stage,
  /** Where it stays. */
  fate: z.enum(["dropped", "left on the surface"]),
});

export const leaveCacheStep = z.strictObject({
  kind: z.literal("leave cache"),
  name: label,
  cache: label,
  /** The tank left in orbit, without propellant, kg. It is aboard from the start. */
  tankKg: massKg,
  /** What is cached: of these propellants, all that the way home takes. */
  tanks: z
    .array(
      z.strictObject({
        propellantId: id,
        volumeM3: z.number().gt(0).max(1e5),
        kPerDay: ratePerDay,
        cKgPerDay: rateKgPerDay,
      }),
    )
    .min(1, "a cache holds one propellant at least")
    .max(12),
});

export const takeUpCacheStep = z.strictObject({
  kind: z.literal("take up cache"),
  name: label,
  cache: label,
  /** Whether the cache's tank comes home too; if not, it is left behind empty. */
  keepsTank: z.boolean(),
  /** Beyond the residual, what must still be aboard on arrival at the cache, in case it is missed. kg */
  arriveWith: z.array(z.strictObject({ propellantId: id, massKg })).max(12),
});

export const profileStep = z.discriminatedUnion("kind", [
  burnStep,
  thrusterStep,
  stayStep,
  loadChangeStep,
  jettisonStep,
  dropStageStep,
  leaveCacheStep,
  takeUpCacheStep,
]);

/** What must be left at the end beyond the residual, in the lander's own stage; a further stage states its own reserve. */
export const reserve = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("mass"),
    lines: z.array(z.strictObject({ propellantId: id, massKg })).max(12),
  }),
  z.strictObject({ kind: z.literal("percent of load"), percent: z.number().min(0).max(90) }),
  z.strictObject({ kind: z.literal("delta-v"), mPerS: speed }),
]);

export const profile = z.strictObject({
  id,
  /** The lander class that flies it. */
  classId: id,
  name: label,
  steps: z.array(profileStep).max(60),
  reserve,
  note,
  /** Where it lands and from which orbit; null: not stated, and nothing is added for the plane. */
  landing: landing.nullable().default(null),
});

/** What one sortie carries, masses in kg. */
export const mission = z.strictObject({
  /** Aboard at departure, for the surface. */
  cargoDownKg: massKg,
  /** Brought up from the surface. */
  cargoUpKg: massKg,
  /** Persons aboard at departure. */
  crew: z.int().min(0).max(100),
});

export type BurnDeltaV = Readonly<z.infer<typeof burnDeltaV>>;
export type ProfileStep = Readonly<z.infer<typeof profileStep>>;
export type BurnStep = Readonly<z.infer<typeof burnStep>>;
export type Reserve = Readonly<z.infer<typeof reserve>>;
export type Profile = Readonly<z.infer<typeof profile>>;
export type Mission = Readonly<z.infer<typeof mission>>;
