/** The Moon as a central body: gravity, size and turning. Each constant with its source. */

/** Gravitational parameter, m³/s²: 4902.800 km³/s² (NAIF kernel gm_de440.tpc, BODY301_GM = 4902.80012, rounded). */
export const MOON_MU = 4902.8e9;

/**
 * Mean radius, m (B. A. Archinal and others, "Report of the IAU Working Group on Cartographic Coordinates and Rotational
 * Elements: 2015", Celestial Mechanics and Dynamical Astronomy 130 (2018) 22).
 */
export const MOON_RADIUS_M = 1_737_400;

/**
 * How fast the Moon turns against the stars, degrees a day: 13.17635815 (the same report; NAIF kernel pck00010.tpc,
 * BODY301_PM). One turn takes 27.32166 days. Its libration about this mean (some tenths of a degree) is left out.
 */
export const MOON_TURN_DEG_PER_DAY = 13.17635815;

/** Flattening of the Moon's gravity, J2: 2.0321e-4 (GRAIL; from memory). It turns the node of an orbit. */
export const MOON_J2 = 2.0321e-4;
