/** A stated orbit about the Moon: its apses as heights above the mean surface, its plane, and how that plane drifts. */
import { z } from "zod";
import { instant } from "../ground/quantity.ts";
import { MOON_J2, MOON_MU, MOON_RADIUS_M, MOON_TURN_DEG_PER_DAY } from "./moon.ts";
import { periodS } from "./speed.ts";
import type { Apses } from "./transfer.ts";

/** Heights of the lowest and the highest point above the mean surface, km. */
export const heights = z
  .strictObject({ periapsisKm: z.number().min(1).max(200_000), apoapsisKm: z.number().min(1).max(200_000) })
  .refine(({ periapsisKm, apoapsisKm }) => periapsisKm <= apoapsisKm, {
    message: "the periapsis must not be higher than the apoapsis",
    path: ["periapsisKm"],
  });

/** Longitude on the Moon, degrees east. */
export const longitudeDeg = z.number().min(-180).max(360);

/** An orbit with its plane. Longitudes are on the turning Moon, so the node has its instant. */
export const lunarOrbit = z.strictObject({
  heights,
  inclinationDeg: z.number().min(0).max(180),
  /** Longitude of the ascending node at `nodeAt`. */
  nodeDeg: longitudeDeg,
  nodeAt: instant,
});

export type Heights = Readonly<z.infer<typeof heights>>;

/** The apses as radii from the Moon's centre, m. */
export const apsesOf = ({ periapsisKm, apoapsisKm }: Heights): Apses => ({
  periapsisM: MOON_RADIUS_M + periapsisKm * 1000,
  apoapsisM: MOON_RADIUS_M + apoapsisKm * 1000,
});

/** One revolution, days. */
export const revolutionDays = (orbit: Heights): number => {
  const { periapsisM, apoapsisM } = apsesOf(orbit);
  return periodS(MOON_MU, periapsisM, apoapsisM) / 86_400;
};

/**
 * How fast the node moves against the stars by the Moon's flattening, degrees a day: −3/2·J2·n·(R/p)²·cos i (first
 * order, secular; the Moon's other harmonics and the Earth are left out). A polar orbit keeps its node.
 */
export const nodeDriftDegPerDay = (orbit: Heights, inclinationDeg: number): number => {
  const { periapsisM, apoapsisM } = apsesOf(orbit);
  const semiLatus = (2 * periapsisM * apoapsisM) / (periapsisM + apoapsisM);
  const degPerDay = 360 / revolutionDays(orbit);
  const share = (MOON_RADIUS_M / semiLatus) ** 2;
  return -1.5 * MOON_J2 * degPerDay * share * Math.cos((inclinationDeg * Math.PI) / 180);
};

/** How fast the ascending node moves over the turning Moon, degrees of longitude a day (west: negative). */
export const nodeOverGroundDegPerDay = (orbit: Heights, inclinationDeg: number): number =>
  nodeDriftDegPerDay(orbit, inclinationDeg) - MOON_TURN_DEG_PER_DAY;
