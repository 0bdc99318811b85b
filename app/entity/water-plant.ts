/** A plant that makes propellant from water, as a source keeps it. */
import { z } from "zod";
import { fraction, instant } from "../ground/quantity.ts";

const dutyPeriod = z
  .strictObject({ fromAt: instant, untilAt: instant })
  .refine(({ fromAt, untilAt }) => untilAt > fromAt, { path: ["untilAt"], message: "duty ends before it begins" });

const perKg = z.number().min(0).max(1000);

export const waterPlant = z.strictObject({
  /** Water that reaches the plant on a day of duty, kg. */
  waterKgPerDay: z.number().min(0).max(1e7),
  /** Share of the water that is turned into gas. */
  recoveryFraction: fraction,
  /** Oxygen to hydrogen by mass in the engines that burn it. */
  mixtureRatio: z.number().min(0.1).max(100),
  /** Persons who breathe of the oxygen that is left over. */
  persons: z.int().min(0).max(1000),
  /** Energy by fuel cells, kWh a day: it takes hydrogen away from the pairs. */
  fuelCellKWhPerDay: z.number().min(0).max(1e7),
  fuelCellHydrogenKgPerKWh: z.number().min(0).max(1),
  fuelCellOxygenKgPerKWh: z.number().min(0).max(8),
  /** kWh per kg of hydrogen made, and per kg liquefied. */
  electrolysisKWhPerKgHydrogen: perKg,
  liquefactionKWhPerKgHydrogen: perKg,
  liquefactionKWhPerKgOxygen: perKg,
  /** When it works, in order of time. */
  duty: z
    .array(dutyPeriod)
    .max(120)
    .refine(
      (periods) => periods.every((period, i) => i === 0 || period.fromAt >= (periods[i - 1] as typeof period).untilAt),
      "duty periods overlap or are out of order",
    ),
});

export type WaterPlant = Readonly<z.infer<typeof waterPlant>>;
