/**
 * The sequence of I. M. Sobol' (1967) in up to eight dimensions: points that fill the unit cube evenly, the same for ever.
 * Direction numbers: S. Joe, F. Y. Kuo, "Constructing Sobol sequences with better two-dimensional projections", SIAM J.
 * Sci. Comput. 30 (2008) 2635, their table new-joe-kuo-6.21201, dimensions 2 to 8. The registry has no library for it
 * that is kept up; eight rows of a published table are less than a dependency.
 */

export const MAX_DIMENSIONS = 8;
/** Points that can be told apart. */
const BITS = 32;

/** Degree of the primitive polynomial, its inner coefficients as a number, and the first direction integers. */
const JOE_KUO: readonly { readonly degree: number; readonly inner: number; readonly first: readonly number[] }[] = [
  { degree: 1, inner: 0, first: [1] },
  { degree: 2, inner: 1, first: [1, 3] },
  { degree: 3, inner: 1, first: [1, 3, 1] },
  { degree: 3, inner: 2, first: [1, 1, 1] },
  { degree: 4, inner: 1, first: [1, 1, 3, 3] },
  { degree: 4, inner: 4, first: [1, 3, 5, 13] },
  { degree: 5, inner: 2, first: [1, 1, 5, 5, 17] },
];

/** The direction numbers of one dimension (from 0), as 32-bit integers, the first the greatest. */
const directionsOf = (dimension: number): Uint32Array => {
  const v = new Uint32Array(BITS);
  const row = JOE_KUO[dimension - 1];
  if (row === undefined) {
    for (let i = 0; i < BITS; i += 1) v[i] = 2 ** (BITS - 1 - i);
    return v;
  }
  const { degree, inner, first } = row;
  for (let i = 0; i < BITS; i += 1) {
    if (i < degree) {
      v[i] = (first[i] as number) * 2 ** (BITS - 1 - i);
      continue;
    }
    let next = (v[i - degree] as number) ^ ((v[i - degree] as number) >>> degree);
    for (let k = 1; k < degree; k += 1) if (((inner >>> (degree - 1 - k)) & 1) === 1) next ^= v[i - k] as number;
    v[i] = next >>> 0;
  }
  return v;
};

const directions = Array.from({ length: MAX_DIMENSIONS }, (_, dimension) => directionsOf(dimension));

/**
 * Coordinate of point `index` (from 0, the origin) in a dimension (from 0), in [0, 1): any point, without the ones before.
 * In the order of the Gray code, as usual.
 */
export const sobolCoordinate = (index: number, dimension: number): number => {
  const v = directions[dimension] as Uint32Array;
  let gray = (index ^ (index >>> 1)) >>> 0;
  let bits = 0;
  for (let i = 0; gray !== 0; i += 1, gray >>>= 1) if ((gray & 1) === 1) bits ^= v[i] as number;
  return (bits >>> 0) / 2 ** BITS;
};
