/** Classes of craft, and the single craft of a class. */
import { z } from "zod";
import { lander } from "./lander.ts";
import {
  days,
  engineNumbers,
  fraction,
  id,
  instant,
  label,
  massKg,
  note,
  rateKgPerDay,
  ratePerDay,
} from "../ground/quantity.ts";

/** The wall of a tank that is warm before each top-up. */
export const tankWall = z.strictObject({
  massKg,
  /** What it is made of. */
  metal: z.enum(["aluminium", "titanium", "steel"]),
  /** Before the first liquid comes, K. */
  temperatureK: z.number().gt(0, "a wall's temperature must be above 0 K").max(500),
});

/** What a class of craft does with one propellant. */
export const craftPropellant = z.strictObject({
  propellantId: id,
  /** What its tank may hold, kg. */
  capacityKg: massKg,
  /** Tanker: loaded at departure unless the flight says otherwise. Lander: needed aboard for one sortie. kg */
  loadKg: massKg,
  /** Lander: expected aboard at return unless the sortie says otherwise, kg. Tanker: 0. */
  returnKg: massKg,
  /** Loss in transit (tanker) or docked between sorties (lander). */
  kPerDay: ratePerDay,
  cKgPerDay: rateKgPerDay,
  /** Tanker: what cannot be drawn at the depot, kg. */
  residualKg: massKg,
  /** Lost to cool the line before each transfer, kg. */
  chilldownKg: massKg,
  /** Transfer loss. */
  lossFraction: fraction,
  /** Metered transfer rate; null: the whole transfer takes effect at once, at the end of the handover. */
  rateKgPerDay: z.number().min(1).max(1e7).nullable(),
  /** Lander: the wall that each top-up must cool on top of the line's chilldown; absent: kept cold, or not described. */
  wall: tankWall.optional(),
});

export const craftClass = z.strictObject({
  id,
  name: label,
  role: z.enum(["tanker", "lander"]),
  propellants: z.array(craftPropellant).max(12),
  /** Tanker: usual coast to the depot. Lander: usual time from loading to return. */
  tripDays: days,
  /** Tanker: usual time at the port. Lander: 0. */
  berthDays: days,
  note,
  /** Lander: its data sheet, from which a profile computes the demand; null: not described. */
  lander: lander.nullable().default(null),
  /** Tanker: least time from the end of a stay at the port to the next departure of the same hull. Lander: 0. */
  turnaroundDays: days.default(0),
  /** What one flight costs (tanker), or one new craft brought to the depot (lander), in `costUnit`; null: not stated. */
  costPerFlight: z.number().min(0).max(1e12).nullable().default(null),
  /** The word or symbol beside the costs of this ledger; no currency is known here, none is converted. May be empty. */
  costUnit: z.string().max(20, "a unit has 20 characters at most").default(""),
  /**
   * What lifting one leaves behind besides propellant and cargo, kg: of a tanker that does not fly again its dry mass, of a
   * lander what carries it to the depot. Null: not stated, and not counted.
   */
  hardwareKg: massKg.nullable().default(null),
});

/** One serial of a class. */
export const craft = z.strictObject({
  id,
  classId: id,
  name: label,
  note,
  /**
   * Lander: when its engines were or will be changed for new ones; which, or without `engineNumbers` all of them; of which
   * further stage, or without `stage` of its own.
   */
  engineChanges: z
    .array(
      z.strictObject({
        at: instant,
        note,
        engineNumbers: engineNumbers.optional(),
        /** Name of a further stage; left out: the lander's own. */
        stage: label.optional(),
      }),
    )
    .max(100)
    .default([]),
});

export type TankWall = Readonly<z.infer<typeof tankWall>>;
export type CraftPropellant = Readonly<z.infer<typeof craftPropellant>>;
export type CraftClass = Readonly<z.infer<typeof craftClass>>;
export type Craft = Readonly<z.infer<typeof craft>>;
