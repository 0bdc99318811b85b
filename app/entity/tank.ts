/** A tank: one propellant, in a depot or aboard a lander. */
import { z } from "zod";
import { id, label, massKg } from "../ground/quantity.ts";

export const tank = z.strictObject({
  id,
  /** A depot's tank, or the tank of one craft (a lander's stock between sorties). */
  ownerKind: z.enum(["depot", "craft"]),
  ownerId: id,
  propellantId: id,
  name: label,
  /** Inner volume in m³, where it is known; the maximum fill then must fit under the ullage. */
  volumeM3: z.number().min(0.001).max(1e6).nullable(),
  /** The part of the volume that must stay empty, per cent. */
  ullagePercent: z.number().min(0).max(90),
  /** What may be put in, kg. */
  maximumFillKg: massKg,
  /** What cannot be drawn, kg. */
  heelKg: massKg,
  /** What policy says to keep above empty for the unforeseen, kg, counted from empty (so it includes the heel). */
  reserveKg: massKg,
  /** Order of filling and drawing among tanks of one propellant, lowest first; null: by loss rate. */
  rank: z.int().min(0).max(99).nullable(),
});

export type Tank = Readonly<z.infer<typeof tank>>;
