/** A lander as its data sheet describes it: what the demand of a sortie is computed from. */
import { z } from "zod";
import { id, label, massKg, rateKgPerDay, ratePerDay } from "../ground/quantity.ts";

const isp = (whose: string): z.ZodNumber => z.number().gt(0, `${whose} Isp must be above 0 s`).max(2000);

/** The main engines: all alike, fed from the same two propellants. */
export const engineSet = z.strictObject({
  count: z.int().min(1, "a lander has one engine at least").max(20),
  /** Vacuum thrust of one engine at full throttle, N. */
  thrustN: z.number().gt(0, "an engine's thrust must be above 0 N").max(1e8),
  ispFullS: isp("an engine's"),
  /** Isp at minimum throttle, s; in between it is taken as linear. */
  ispMinimumS: isp("an engine's"),
  /** Lowest share of full thrust at which it runs; 1: it cannot be throttled. */
  minimumThrottle: z.number().gt(0, "minimum throttle must be above 0").max(1),
  /** Oxidiser to fuel by mass. */
  mixtureRatio: z.number().gt(0, "the mixture ratio must be above 0").max(100),
  /** How far the ratio may be off over a sortie, per cent of it; both propellants are loaded for the worse case. */
  mixtureSpreadPercent: z.number().min(0).max(20),
  oxidiserId: id,
  fuelId: id,
  /** Which engines burn where a step lights only some and does not name them; left out: the same ones, from number 1 on. */
  choice: z.enum(["the same", "least worn"]).optional(),
  /** Ignitions and burn time of one engine before it must be changed; null: not rated. */
  ratedIgnitions: z.int().min(1).max(1e5).nullable(),
  ratedBurnSeconds: z.number().gt(0).max(1e7).nullable(),
});

/** A system of small thrusters for attitude, docking and trim. */
export const thrusterSet = z.strictObject({
  name: label,
  ispS: isp("a thruster's"),
  /** Of all thrusters that push one way, N. */
  thrustN: z.number().gt(0).max(1e7),
  /** What it burns, by parts of mass ("1.65 oxidiser, 1 fuel"). */
  parts: z
    .array(z.strictObject({ propellantId: id, parts: z.number().gt(0, "a part must be above 0").max(1000) }))
    .min(1)
    .max(4),
});

/** What holds one propellant aboard. */
export const landerTank = z.strictObject({
  propellantId: id,
  volumeM3: z.number().gt(0, "a tank's volume must be above 0 m³").max(1e5),
  /** The part of the volume that must stay empty, per cent. */
  ullagePercent: z.number().min(0).max(90),
  /** What cannot be drawn, kg. */
  residualKg: massKg,
  /** Loss aboard during a sortie. */
  kPerDay: ratePerDay,
  cKgPerDay: rateKgPerDay,
});

/** A stage besides the lander's own: aboard at departure, until a step drops it or leaves it on the surface. */
export const furtherStage = z.strictObject({
  name: label,
  /** Without propellant, kg. */
  dryKg: z.number().gt(0, "a stage's dry mass must be above 0 kg").max(1e7),
  /** Its main engines, fed from its own tanks; null: it has none and cannot burn. */
  engines: engineSet.nullable(),
  thrusters: z.array(thrusterSet).max(4),
  tanks: z.array(landerTank).max(12),
  /** Of its own load: what must be left beyond the residual when it is dropped or comes home. */
  reservePercent: z.number().min(0).max(90),
});

/** What stands here is the lander's own stage, which carries cargo and crew; all of it where it has no further ones. */
export const lander = z.strictObject({
  /** Without propellant, cargo and crew, kg. */
  dryKg: z.number().gt(0, "a lander's dry mass must be above 0 kg").max(1e7),
  engines: engineSet,
  thrusters: z.array(thrusterSet).max(4),
  tanks: z.array(landerTank).min(1).max(12),
  /** Fuel cells: what a kWh takes. Empty: power comes from elsewhere. */
  fuelCells: z.array(z.strictObject({ propellantId: id, kgPerKwh: z.number().gt(0).max(100) })).max(4),
  /** What a person takes a day from the tanks. */
  crew: z.array(z.strictObject({ propellantId: id, kgPerPersonDay: z.number().gt(0).max(100) })).max(4),
  /** Mass per person with suit and belongings, kg. */
  personKg: z.number().min(0).max(1000),
  /** Maximum cargo at once, kg; null: no limit stated. */
  cargoLimitKg: massKg.nullable(),
  /** Left out: a lander of one stage. */
  furtherStages: z.array(furtherStage).max(3).optional(),
});

export type EngineSet = Readonly<z.infer<typeof engineSet>>;
export type ThrusterSet = Readonly<z.infer<typeof thrusterSet>>;
export type LanderTank = Readonly<z.infer<typeof landerTank>>;
export type FurtherStage = Readonly<z.infer<typeof furtherStage>>;
export type Lander = Readonly<z.infer<typeof lander>>;
