/** A depot: tanks and ports in an orbit. */
import { z } from "zod";
import { lunarOrbit } from "../orbits/orbit.ts";
import { id, instant, label, note } from "../ground/quantity.ts";
import { windowList } from "./window-list.ts";

export const depot = z.strictObject({
  id,
  name: label,
  /** The orbit in words, "near-rectilinear halo, 9:2". */
  orbit: z.string().max(120),
  /** Days between departure windows (one revolution); null: a sortie may leave at any time. */
  windowPeriodDays: z.number().min(0.01).max(1000).nullable(),
  /** An instant at which a window is open; the others follow at whole periods before and after. */
  windowReferenceAt: instant.nullable(),
  /** Ports for visiting tankers. Landers have a port of their own. */
  ports: z.int().min(0).max(99),
  note,
  /** Windows as a list instead of a period; null: by period, or none. */
  windowList: windowList.nullable().default(null),
  /** The orbit as data, where it is one about the Moon alone; null: in words only (a halo orbit). */
  lunarOrbit: lunarOrbit.nullable().default(null),
});

export type Depot = Readonly<z.infer<typeof depot>>;
