/** Random numbers for resampling: the 32-bit generator with a Weyl sequence of G. Steele et al. ("SplitMix", OOPSLA 2014), in its 32-bit mix. */

/** Uniform in [0, 1), the same for the same seed. */
export const createStream = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e37_79b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85eb_ca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2_ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
};
