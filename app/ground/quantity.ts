/** The shapes of quantities as they come through any door: finite, within sane bounds, with their unit in the name. */
import { z } from "zod";
import { isOpen, isSeen, isWhole } from "./readable-text.ts";

/** Length of a day in milliseconds (a day is 86,400 s; leap seconds are not counted). */
export const DAY_MS = 86_400_000;

/** Standard gravity in m/s², exact by definition. */
export const STANDARD_GRAVITY = 9.80665;

const EARLIEST_AT = Date.UTC(1970, 0, 1);
const LATEST_AT = Date.UTC(2200, 0, 1);

/** A UTC instant: whole milliseconds since 1970, from 1970 to 2200. Names of instants end in `At`. */
export const instant = z
  .int()
  .min(EARLIEST_AT, "a date here lies in 1970 or later: is its year right?")
  .max(LATEST_AT, "a date here lies before 2200: is its year right?");

/** A mass in kilograms, not negative, at most a million tonnes. */
export const massKg = z.number().min(0).max(1e9);

/** A span in days, from nothing to a century. */
/** Engines of a lander by their number, counted from 1. */
export const engineNumbers = z
  .array(z.int().min(1, "engines are counted from 1").max(20))
  .min(1, "name one engine at least")
  .max(20);
export const days = z.number().min(0).max(36_525);

/** A share from 0 to 1. */
export const fraction = z.number().min(0).max(1);

/** A share lost per day of what is there, as the exponent's rate: m(t) = m0·e^(−k·t). At most 10/day. */
export const ratePerDay = z.number().min(0).max(10);

/** A mass flow in kg/day that does not depend on the level. */
export const rateKgPerDay = z.number().min(0).max(1e7);

/** A stable identifier: lower-case letters, digits and `. _ : -`, at most 64. */
export const id = z
  .string()
  .regex(/^[a-z0-9][a-z0-9._:-]{0,63}$/, "an id has lower-case letters, digits and . _ : - only, 64 at most");

/** A name a person reads: one line, 1 to 80 characters. */
export const label = z
  .string()
  .min(1, "a name is needed")
  .max(80, "a name has 80 characters at most")
  // eslint-disable-next-line no-control-regex -- control characters are what this rule keeps out
  .regex(/^[^\u0000-\u001f\u007f]+$/, "a name is one line of text")
  .refine(isWhole, "a name has half a character in it; type it anew")
  .refine(isSeen, "a name needs at least one character that can be seen")
  .refine(isOpen, "a name has a hidden character in it (of no width, or one that turns the direction); type it anew");

/** Free text: at most 2,000 characters. */
export const note = z
  .string()
  .max(2000, "a note has 2,000 characters at most")
  .refine(isWhole, "a note has half a character in it; type it anew");
