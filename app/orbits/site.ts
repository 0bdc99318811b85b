/** A landing site against an orbit's plane: how far off it lies while the Moon turns below the orbit, and when least. */
import { type Heights, nodeOverGroundDegPerDay } from "./orbit.ts";

const RAD = Math.PI / 180;

/** A place on the mean sphere, degrees north and east. */
export interface Place {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** A plane over the ground at one instant: inclination and longitude of the ascending node, degrees. */
export interface GroundPlane {
  readonly inclinationDeg: number;
  readonly nodeDeg: number;
}

/**
 * How far a place lies off a plane, degrees −90…90: the arc to the nearest point of the ground track, positive on the
 * side of the orbit's angular momentum. It is the latitude that the place has over the plane.
 */
export const offPlaneDeg = ({ latitudeDeg, longitudeDeg }: Place, { inclinationDeg, nodeDeg }: GroundPlane): number => {
  const [latitude, inclination] = [latitudeDeg * RAD, inclinationDeg * RAD];
  const sine =
    Math.sin(inclination) * Math.cos(latitude) * Math.sin((nodeDeg - longitudeDeg) * RAD) +
    Math.cos(inclination) * Math.sin(latitude);
  return Math.asin(Math.min(1, Math.max(-1, sine))) / RAD;
};

/** The highest latitude over which an orbit of an inclination passes, degrees. */
export const reachDeg = (inclinationDeg: number): number => Math.min(inclinationDeg, 180 - inclinationDeg);

/** How near an orbit of an inclination can come to a latitude wherever its node is, degrees; 0: it passes over it. */
export const nearestPassDeg = (latitudeDeg: number, inclinationDeg: number): number =>
  Math.max(0, Math.abs(latitudeDeg) - reachDeg(inclinationDeg));

/** The node's longitude at which the orbit comes nearest to a place, going north there or going south, degrees. */
export const nodeOver = (
  { latitudeDeg, longitudeDeg }: Place,
  inclinationDeg: number,
  goes: "north" | "south",
): number => {
  const sine = -Math.tan(latitudeDeg * RAD) / Math.tan(inclinationDeg * RAD);
  // An equatorial orbit has the same plane whatever its node.
  const from = Number.isFinite(sine) ? Math.asin(Math.min(1, Math.max(-1, sine))) / RAD : 0;
  return longitudeDeg + (goes === "north" ? from : 180 - from);
};

/** The plane so many days later, as it lies over the ground. */
export const planeAfter = (plane: GroundPlane, heights: Heights, days: number): GroundPlane => ({
  ...plane,
  nodeDeg: plane.nodeDeg + nodeOverGroundDegPerDay(heights, plane.inclinationDeg) * days,
});
