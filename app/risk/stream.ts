/**
 * Random words by key: one input's words for a block of 64 replications come from a stream of their own, seeded by
 * (seed, kind of input, key that plan cases share, block). So a replication is the same whatever worker draws it and
 * whatever else the plan holds. Generator: sfc32 (Doty-Humphrey's small fast counting generator, of PractRand).
 */

/** Replications in a block. */
export const BLOCK = 64;

/** What a stream is for; a kind's number is part of the seed and must never change. */
export const STREAM = {
  flight: 1,
  lossTrials: 2,
  grounding: 3,
  transfer: 4,
  sortie: 5,
  demand: 6,
  boilOff: 7,
  cooler: 8,
  level: 9,
} as const;

/** 32 bits well mixed. */
const mix = (word: number): number => {
  let x = word;
  x = Math.imul(x ^ (x >>> 16), 0x21f0_aaad);
  x = Math.imul(x ^ (x >>> 15), 0x735a_2d97);
  return x ^ (x >>> 15);
};

/** A key as 32 bits (FNV-1a, mixed): the same text and kind give the same bits for good. */
export const keyHash = (kind: number, key: string): number => {
  let hash = 0x811c_9dc5 ^ Math.imul(kind, 0x9e37_79b1);
  for (let i = 0; i < key.length; i += 1) hash = Math.imul(hash ^ key.charCodeAt(i), 0x0100_0193);
  return mix(hash);
};

/** Rounds thrown away after seeding: the state is then mixed whatever the seeds. */
const WARM_UP = 12;

const state = new Int32Array(4);

/** Puts the generator at the beginning of a stream. `index` is the block, or whatever counts the parts of a stream. */
export const seedStream = (seed: number, key: number, index: number): void => {
  const x = mix(key ^ mix(seed));
  const y = mix((index + 0x9e37_79b9) | 0);
  let a = x;
  let b = y;
  let c = mix((x + y) | 0) ^ key;
  let d = 1;
  for (let i = 0; i < WARM_UP; i += 1) {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
};

/** Half a step, so that a unit is never 0 and never 1. */
const STEP = 2 ** -32;

/** Fills `out` with the next numbers of the stream, evenly spread over (0, 1), in steps of 2^-32. */
export const fillUnits = (out: Float64Array, count: number): void => {
  let a = state[0] as number;
  let b = state[1] as number;
  let c = state[2] as number;
  let d = state[3] as number;
  for (let i = 0; i < count; i += 1) {
    const t = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + t) | 0;
    out[i] = ((t >>> 0) + 0.5) * STEP;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
};

const one = new Float64Array(1);

/** The next number of the stream. */
export const nextUnit = (): number => {
  fillUnits(one, 1);
  return one[0] as number;
};
