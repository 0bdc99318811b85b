/**
 * The standard normal quantile. Source: M. J. Wichura, "Algorithm AS 241: The Percentage Points of the Normal
 * Distribution", Applied Statistics 37 (1988) 477, the routine of 16 digits. By inversion one random number gives one
 * variate, and a changed spread moves nothing else.
 */

const ratio = (x: number, above: readonly number[], below: readonly number[]): number => {
  let p = 0;
  let q = 0;
  for (let i = above.length - 1; i >= 0; i -= 1) {
    p = p * x + (above[i] as number);
    q = q * x + (below[i] as number);
  }
  return p / q;
};

const FAR: readonly (readonly number[])[] = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
];
const MIDDLE: readonly (readonly number[])[] = [
  [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
];

const tail = (p: number): number => {
  const r = Math.sqrt(-Math.log(p));
  return r <= 5
    ? ratio(r - 1.6, MIDDLE[0] as readonly number[], MIDDLE[1] as readonly number[])
    : ratio(r - 5, FAR[0] as readonly number[], FAR[1] as readonly number[]);
};

/** The z below which a standard normal lies with probability p, 0 < p < 1. Relative error about 1e-16. */
export const normalQuantile = (p: number): number => {
  const q = p - 0.5;
  if (q > 0.425) return tail(1 - p);
  if (q < -0.425) return -tail(p);
  const r = 0.180_625 - q * q;
  return (
    (q *
      (((((((2509.0809287301227 * r + 33430.57558358813) * r + 67265.7709270087) * r + 45921.95393154987) * r +
        13731.69376550946) *
        r +
        1971.5909503065513) *
        r +
        133.14166789178438) *
        r +
        3.3871328727963665)) /
    (((((((5226.495278852854 * r + 28729.085735721943) * r + 39307.89580009271) * r + 21213.794301586597) * r +
      5394.196021424751) *
      r +
      687.1870074920579) *
      r +
      42.31333070160091) *
      r +
      1)
  );
};
