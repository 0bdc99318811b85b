/** The drawn shape of an input's distribution. */
import { describe, expect, it } from "vitest";
import { lawShape } from "../../../renderer/uncertainty/law-shape.ts";

const every = { kind: "every" } as const;

describe("the shape", () => {
  it("of an exponential falls from its start, beside the share without any slip", () => {
    const shape = lawShape({
      quantity: "flight slip",
      of: every,
      law: { kind: "exponential", noneShare: 0.6, meanDays: 8 },
    })!;
    expect(shape.noneShare).toBe(0.6);
    expect(shape.bars[0]).toBe(1);
    expect(shape.bars.at(-1)).toBeLessThan(0.1);
    // 98 % of an exponential lies within −ln 0.02 = 3.91 means.
    expect(shape.high).toBe("31\u202fd");
  });

  it("of a triangular law is highest at its mode", () => {
    const shape = lawShape({
      quantity: "grounding",
      of: every,
      law: { kind: "triangular", noneShare: 0, lowDays: 0, modeDays: 30, highDays: 120 },
    })!;
    const top = shape.bars.indexOf(1) / shape.bars.length;
    expect(top).toBeGreaterThan(0.15);
    expect(top).toBeLessThan(0.4);
  });

  it("of a loss known from flights is that of the loss, highest where they lost, and ends where the closed form does", () => {
    const of = (successes: number, trials: number) =>
      lawShape({ quantity: "flight loss", of: every, law: { kind: "trials", successes, trials } })!;
    const shape = of(9, 10);
    const place = ((shape.bars.indexOf(1) + 0.5) / shape.bars.length) * Number.parseFloat(shape.high);
    expect(Math.abs(place - 10)).toBeLessThan(2);
    // Without a loss in n flights the density is (n + 1)(1 − p)^n: 98 % of it lies below 1 − 0.02^(1 ÷ (n + 1)).
    expect(of(9, 9).high).toBe("32\u202f%");
    expect(of(0, 0).high).toBe("98\u202f%");
    expect(of(99, 99).high).toBe("3.8\u202f%");
  });

  it("of a factor lies about one, and a single number has none", () => {
    const shape = lawShape({ quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.08 } })!;
    expect(Number(shape.low)).toBeLessThan(1);
    expect(Number.parseFloat(shape.high)).toBeGreaterThan(1);
    expect(shape.high).toMatch(/×$/);
    expect(
      lawShape({ quantity: "flight loss", of: every, law: { kind: "probability", probability: 0.05 } }),
    ).toBeNull();
    expect(lawShape({ quantity: "cooler", of: every, law: { kind: "none" } })).toBeNull();
  });
});
