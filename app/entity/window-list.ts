/** Departure windows as a list: as somebody stated them, or as passages of an orbit ephemeris. */
import { z } from "zod";
import { instant } from "../ground/quantity.ts";

/** Most windows that a list may hold: ten years of a revolution a day. */
export const MAX_WINDOWS = 4000;

const words = (most: number) => z.string().max(most, `at most ${String(most)} characters`);

/** Where a list comes from. */
export const windowSource = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("stated"), basis: words(200) }),
  /** An orbit ephemeris message (CCSDS 502.0-B): the file by name and digest, and what of it was taken. */
  z.strictObject({
    kind: z.literal("ephemeris"),
    fileName: words(200),
    sha256: z.string().regex(/^[0-9a-f]{64}$/, "a SHA-256 digest has 64 digits 0–9 and a–f"),
    originator: words(200),
    objectName: words(200),
    frame: words(40),
    timeSystem: z.enum(["UTC", "TAI", "TT", "TDB"]),
    passage: z.enum(["periapsis", "apoapsis"]),
    /** The span that the states cover, and how many passages lie in it. */
    fromAt: instant,
    untilAt: instant,
    found: z.int().min(1).max(MAX_WINDOWS),
  }),
]);

export const windowList = z.strictObject({
  at: z
    .array(instant)
    .min(1, "a list of windows holds one window at least")
    .max(MAX_WINDOWS, `a list of windows holds ${String(MAX_WINDOWS)} at most`)
    .refine((list) => list.every((at, i) => i === 0 || at > (list[i - 1] ?? 0)), {
      message: "windows stand in order of time, none of them twice",
    }),
  source: windowSource,
});

export type WindowList = Readonly<z.infer<typeof windowList>>;
