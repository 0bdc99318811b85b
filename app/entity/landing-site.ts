/** The landing site of a profile, and the low orbit from which it is reached, as it is stated. */
import { z } from "zod";
import { label } from "../ground/quantity.ts";
import { longitudeDeg } from "../orbits/orbit.ts";

export const landing = z.strictObject({
  site: label,
  latitudeDeg: z.number().min(-90).max(90),
  longitudeDeg,
  /** The circular low orbit from which the descent begins and to which the ascent leads: height and inclination. */
  orbitKm: z.number().min(5).max(1000),
  inclinationDeg: z.number().min(0).max(180),
  /** How the orbit passes over the site. */
  passes: z.enum(["north", "south"]),
  /** It lands so many days after the orbit has passed over the site (before: negative). */
  landsAfterPassDays: z.number().min(-30).max(30),
  /** How far a descent or an ascent may be steered off the plane, degrees of arc; beyond it the plane is turned in orbit. */
  dogLegLimitDeg: z.number().min(0).max(10),
});
