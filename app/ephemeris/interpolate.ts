/**
 * A state between the states of an ephemeris, by the degree that its message states. Where it says Lagrange, the polynomial
 * of that degree goes through half as many states and takes their velocities, which every message has: it then spans half
 * the time, and keeps to a second low over the Moon, where separate polynomials of position and velocity do not.
 */
import type { OemSegment } from "./read-oem.ts";

/** r·v, km²/s: the rate of r²/2. It is below zero coming nearer, above zero going away, zero at an apsis. */
export interface RangeRate {
  readonly rangeKm: number;
  readonly radialKm2PerS: number;
}

/** Polynomial through nodes that may repeat (value and slope), by divided differences: value and slope at x. */
const newton = (x: number, nodes: readonly number[], table: number[]): readonly [number, number] => {
  let [value, slope] = [table.at(-1) ?? 0, 0];
  for (let i = table.length - 2; i >= 0; i -= 1) {
    const away = x - (nodes[i] as number);
    slope = slope * away + value;
    value = value * away + (table[i] as number);
  }
  return [value, slope];
};

/** Divided differences of values; where two nodes fall together the slope stands in. */
const differences = (
  nodes: readonly number[],
  values: readonly number[],
  slopes: readonly number[] | null,
): number[] => {
  const column = [...values];
  const result = [column[0] ?? 0];
  for (let order = 1; order < nodes.length; order += 1) {
    for (let i = 0; i < nodes.length - order; i += 1) {
      const apart = (nodes[i + order] as number) - (nodes[i] as number);
      column[i] =
        apart === 0 && slopes !== null
          ? (slopes[i] as number)
          : ((column[i + 1] as number) - (column[i] as number)) / apart;
    }
    result.push(column[0] ?? 0);
  }
  return result;
};

/** The first of `count` states about an instant, which lies after state `before`. */
const firstOf = (length: number, before: number, count: number): number =>
  Math.max(0, Math.min(length - count, before + 1 - Math.ceil(count / 2)));

/**
 * Interpolates at an instant between state `before` and the next. Time is counted in seconds from state `before`, so that
 * no digits are lost.
 */
export const rangeRateAt = (segment: OemSegment, before: number, taiMs: number): RangeRate => {
  const { method, degree, taiMs: at, states } = segment;
  const takesSlopes = method !== "LINEAR";
  const wanted = takesSlopes ? Math.max(2, Math.ceil((degree + 1) / 2)) : degree + 1;
  const count = Math.min(at.length, wanted);
  const first = firstOf(at.length, before, count);
  const base = at[before] as number;
  const seconds = (taiMs - base) / 1000;
  const places = Array.from({ length: count }, (_, i) => first + i);
  const of = (axis: number): number[] => places.map((place) => states[6 * place + axis] as number);
  const times = places.map((place) => ((at[place] as number) - base) / 1000);
  let [square, radial] = [0, 0];
  for (let axis = 0; axis < 3; axis += 1) {
    const [positions, velocities] = [of(axis), of(axis + 3)];
    let [position, velocity] = [0, 0];
    if (takesSlopes) {
      const twice = (list: readonly number[]): number[] => list.flatMap((value) => [value, value]);
      const nodes = twice(times);
      [position, velocity] = newton(seconds, nodes, differences(nodes, twice(positions), twice(velocities)));
    } else {
      [position] = newton(seconds, times, differences(times, positions, null));
      [velocity] = newton(seconds, times, differences(times, velocities, null));
    }
    square += position * position;
    radial += position * velocity;
  }
  return { rangeKm: Math.sqrt(square), radialKm2PerS: radial };
};
