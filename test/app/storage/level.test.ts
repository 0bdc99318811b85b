/** One step of the closed form, against numbers worked by hand and against finer steps of another method. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { daysToEmpty, daysToLevel, levelAfter, lossOver, phi1, phi2 } from "../../../app/storage/level.ts";

const rates = { k: fc.double({ min: 0, max: 0.5, noNaN: true }), c: fc.double({ min: 0, max: 50, noNaN: true }) };

describe("φ1 and φ2", () => {
  /** (1 − e^−x)/x and (1 − φ1)/x in exact rational arithmetic, for x = n/2^20, summed as a series over BigInt. */
  const exact = (n: bigint): readonly [number, number] => {
    const one = 1n << 220n;
    const x = (n << 220n) >> 20n;
    let term = one;
    let first = 0n;
    let second = 0n;
    for (let i = 1n; i < 120n; i += 1n) {
      first += term / i;
      second += term / (i * (i + 1n));
      term = -(term * x) / (one * i);
    }
    return [Number((first * (1n << 60n)) / one) / 2 ** 60, Number((second * (1n << 60n)) / one) / 2 ** 60];
  };
  it("keep 15 digits on both sides of the change of method, and between", () =>
    fc.assert(
      fc.property(fc.oneof(fc.integer({ min: 0, max: 3 << 20 }), fc.integer({ min: 131_000, max: 131_144 })), (n) => {
        const [first, second] = exact(BigInt(n));
        expect(Math.abs(phi1(n / 2 ** 20) / first - 1)).toBeLessThan(4e-16);
        expect(Math.abs(phi2(n / 2 ** 20) / second - 1)).toBeLessThan(4e-15);
      }),
      { numRuns: 3000 },
    ));
});

describe("the level", () => {
  it("falls by c a day when nothing depends on the level", () => expect(levelAfter(1000, 0, 5, 30)).toBe(850));
  it("halves over ln 2 / k", () => expect(levelAfter(1000, Math.LN2 / 10, 0, 10)).toBeCloseTo(500, 10));
  it("stops at 0", () => expect(levelAfter(10, 0.01, 5, 30)).toBe(0));
  it("stays where inflow equals loss", () => expect(levelAfter(1000, 0.01, 2 - 12, 77)).toBe(1000));
  it("rises to (f − c)/k at last", () => expect(levelAfter(0, 0.1, 2 - 12, 1000)).toBeCloseTo(100, 9));
  it("keeps 12 digits as k goes to 0", () => {
    for (let exponent = 6; exponent < 320; exponent += 1) {
      const k = 10 ** -exponent;
      const days = 30;
      // m0 − k·m0·t + k²·m0·t²/2 − …, three terms are exact here to 1e-13
      const expected =
        1000 -
        5 * days -
        k * (1000 * days - (5 * days ** 2) / 2) +
        k * k * ((1000 * days ** 2) / 2 - (5 * days ** 3) / 6);
      expect(Math.abs(levelAfter(1000, k, 5, days) / expected - 1)).toBeLessThan(1e-12);
    }
  });
  it("is the same in one step or two", () =>
    fc.assert(
      fc.property(
        rates.k,
        rates.c,
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (k, c, t, share) => {
          const whole = levelAfter(50_000, k, c - 20, t);
          const parts = levelAfter(levelAfter(50_000, k, c - 20, t * share), k, c - 20, t * (1 - share));
          expect(Math.abs(parts - whole)).toBeLessThan(1e-8);
        },
      ),
    ));
});

describe("crossings", () => {
  it("are found where the level stands then", () =>
    fc.assert(
      fc.property(
        rates.k,
        rates.c,
        fc.double({ min: 0, max: 120, noNaN: true }),
        fc.double({ min: 0, max: 60_000, noNaN: true }),
        (k, c, f, target) => {
          const days = daysToLevel(30_000, k, c - f, target);
          fc.pre(days !== null && days < 1e5);
          expect(Math.abs(levelAfter(30_000, k, c - f, days) - target)).toBeLessThan(1e-6);
        },
      ),
    ));
  it("are none where the level never gets to", () => {
    expect(daysToLevel(100, 0.1, -5, 40)).toBeNull();
    expect(daysToLevel(100, 0.1, -5, 120)).toBeNull();
    expect(daysToLevel(100, 0, 0, 40)).toBeNull();
    expect(daysToEmpty(100, 0.1, 0)).toBeNull();
  });
  it("are now when the level is there", () => expect(daysToLevel(100, 0.1, 3, 100)).toBe(0));
});

describe("integrals", () => {
  it("of a loss of 5 a day from 100 are 100 once it is empty, however long after", () => {
    expect(lossOver(100, 0, 5, 0, 400)).toBeCloseTo(100, 9);
  });
  it("agree with Simpson's rule over the level", () => {
    const steps = 2000;
    let sum = 0;
    for (let i = 0; i <= steps; i += 1)
      sum += levelAfter(900, 0.03, 2, (40 * i) / steps) * (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2);
    expect(lossOver(900, 0.03, 2, 0, 40)).toBeCloseTo((0.03 * sum * 40) / steps / 3 + 2 * 40, 8);
  });
  it("of the loss close the balance: before + in = after + lost", () =>
    fc.assert(
      fc.property(
        rates.k,
        rates.c,
        fc.double({ min: 0, max: 120, noNaN: true }),
        fc.double({ min: 0, max: 900, noNaN: true }),
        (k, c, f, t) => {
          const rest = 3000 + f * t - levelAfter(3000, k, c - f, t) - lossOver(3000, k, c, f, t);
          expect(Math.abs(rest)).toBeLessThan(1e-12 * (3000 + f * t) * 20);
        },
      ),
    ));
});
