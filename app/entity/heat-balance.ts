/**
 * What a heat balance is made of, as a ledger keeps it: insulation, further heat paths, the environment, coolers. It is
 * whole in itself (fluid and pressure included), so that a loss period can be evaluated without its tank.
 */
import { z } from "zod";
import { HIGHEST_PRESSURE_KPA, LOWEST_PRESSURE_KPA, saturationAtPressure } from "../fluid/saturation.ts";
import { label, massKg, note } from "../ground/quantity.ts";

const heatW = z.number().min(0).max(1e7);
const temperatureK = z.number().min(1).max(1500);
const areaM2 = z.number().min(0).max(1e6);

/** Coefficients of the layer-by-layer correlation for a pair of reflector and spacer; app/storage/insulation.ts has the form. */
export const insulationMaterial = z.strictObject({
  name: label,
  solidCoefficient: z.number().min(0).max(1),
  densityExponent: z.number().min(0).max(10),
  radiationCoefficient: z.number().min(0).max(1),
  emittance: z.number().gt(0).max(1),
  gasCoefficient: z.number().min(0).max(1e9),
  source: z.string().min(1).max(300),
});

export const insulation = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("layers"),
    areaM2,
    material: insulationMaterial,
    layers: z.int("layers are counted in whole numbers").min(1, "a blanket has one layer or more").max(1000),
    /** Layers per centimetre. */
    layersPerCm: z.number().gt(0, "the layer density must be above 0 per cm").max(500),
    /** Outer side of the blanket, K. */
    hotK: temperatureK,
    /** Residual gas between the layers, torr (1 torr = 133.322 Pa). */
    residualGasTorr: z.number().min(0).max(10),
    /** Seams and installation: by how much the installed blanket leaks more than a bare one. */
    degradationFactor: z.number().min(1).max(100),
  }),
  /** A flux that was measured or is stated by somebody, already as installed. */
  z.strictObject({ kind: z.literal("flux"), areaM2, fluxWPerM2: z.number().min(0).max(2000), note }),
]);

export const heatCauses = ["penetration", "support", "mixing", "other"] as const;

/** One more way for heat to get in. */
export const heatPath = z.strictObject({ cause: z.enum(heatCauses), label, heatW, note });

export const cooler = z.strictObject({
  name: label,
  /** Lift by temperature of the cold end, temperatures rising. */
  lift: z
    .array(z.strictObject({ temperatureK, liftW: heatW }))
    .min(1, "a cooler needs its lift at one temperature or more")
    .max(40)
    .refine(
      (points) =>
        points.every((point, i) => i === 0 || point.temperatureK > (points[i - 1] as typeof point).temperatureK),
      "temperatures must rise from line to line, each once",
    ),
  /** Electric power drawn while it runs, W. */
  powerW: heatW,
  massKg,
  isRunning: z.boolean(),
  note,
});

export const heatBalance = z
  .strictObject({
    kind: z.literal("heat balance"),
    fluid: z.enum(["H2", "O2", "CH4"]),
    /** At which the tank is held, kPa; the tables reach from 20 to 800. */
    pressureKPa: z.number().min(LOWEST_PRESSURE_KPA).max(HIGHEST_PRESSURE_KPA),
    /** null: none described. */
    insulation: insulation.nullable(),
    paths: z.array(heatPath).max(60),
    /** By which all heat that comes in is multiplied: sun angle, eclipse season, hot attitude. 1: as described. */
    environmentFactor: z.number().min(0).max(50),
    coolers: z.array(cooler).max(8),
  })
  .refine(
    (balance) =>
      balance.insulation?.kind !== "layers" ||
      // A pressure off the tables has its own message.
      balance.pressureKPa < LOWEST_PRESSURE_KPA ||
      balance.pressureKPa > HIGHEST_PRESSURE_KPA ||
      balance.insulation.hotK >= saturationAtPressure(balance.fluid, balance.pressureKPa).temperatureK,
    { path: ["insulation", "hotK"], message: "the outer side of the blanket is colder than the liquid" },
  );

export type InsulationMaterial = Readonly<z.infer<typeof insulationMaterial>>;
export type Insulation = Readonly<z.infer<typeof insulation>>;
export type HeatCause = (typeof heatCauses)[number];
export type HeatPath = Readonly<z.infer<typeof heatPath>>;
export type Cooler = Readonly<z.infer<typeof cooler>>;
export type HeatBalance = Readonly<z.infer<typeof heatBalance>>;
