/** A sortie: one trip of a lander from the depot to the surface and back. */
import { z } from "zod";
import { defaultsOf } from "./defaults.ts";
import { id, instant, label, massKg, note } from "../ground/quantity.ts";

/** What a sortie needs. Each further way to state it is one more member here. */
export const sortieDemand = z.discriminatedUnion("kind", [
  /** The load and return of the lander's class. */
  z.strictObject({ kind: z.literal("class") }),
  /** Stated for this sortie. */
  z.strictObject({
    kind: z.literal("stated"),
    lines: z.array(z.strictObject({ propellantId: id, loadKg: massKg, returnKg: massKg })).max(12),
  }),
  /** Computed from the lander's data sheet by a profile, for this cargo (kg) and crew. */
  z.strictObject({
    kind: z.literal("profile"),
    profileId: id,
    /** Down to the surface. */
    cargoDownKg: massKg,
    /** Up from the surface. */
    cargoUpKg: massKg,
    /** Persons aboard at departure. */
    crew: z.int().min(0).max(100),
  }),
]);

export const sortie = z.strictObject({
  id,
  planCaseId: id,
  /** The same sortie bears the same key in every plan case. */
  key: id,
  campaignId: id,
  /** The craft that flies it. */
  landerId: id,
  depotId: id,
  name: label,
  /** Loading and departure, one instant. */
  loadAt: instant,
  returnAt: instant,
  demand: sortieDemand,
  status: z.enum(["planned", "departed", "flown", "stood down", "cancelled"]),
  note,
  /** When it was known that it stands down; null: it does not, or no record says when. */
  stoodDownAt: instant.nullable().default(null),
});

export type Sortie = Readonly<z.infer<typeof sortie>>;

/** What a sortie has of which no more is said: whoever makes one begins with it. */
export const freshSortie = { status: "planned", note: "", ...defaultsOf(sortie) } as const satisfies Partial<Sortie>;

/**
 * When a sortie under way returns, as far as is known, ms UTC: as planned, but by the time at which its lander has left again.
 * `sorties`: all of its plan case.
 */
export const homeAt = (out: Sortie, sorties: readonly Sortie[]): number =>
  sorties.reduce((earliest, { landerId, status, loadAt }) => {
    const isNext = landerId === out.landerId && loadAt > out.loadAt && (status === "departed" || status === "flown");
    return isNext ? Math.min(earliest, loadAt) : earliest;
  }, out.returnAt);
