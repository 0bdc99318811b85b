/** The laws that each quantity can have, and the numbers that a law starts with when it is chosen. */
import type { Quantity, Uncertainty } from "../../app/entity/risk-input.ts";
import { defaultInputs } from "../../app/risk/default-inputs.ts";

export type Law = Uncertainty["law"];
export type LawKind = Law["kind"];

const slips = [
  "none",
  "by lead time",
  "exponential",
  "log-normal",
  "triangular",
  "observed",
  "quantiles",
] as const satisfies readonly LawKind[];
const factors = ["none", "log-normal factor"] as const satisfies readonly LawKind[];

export const lawKinds: { readonly [Q in Quantity]: readonly LawKind[] } = {
  "flight slip": slips,
  "sortie slip": slips,
  grounding: ["none", "exponential", "log-normal", "triangular", "observed", "quantiles"],
  "flight loss": ["none", "probability", "trials"],
  "transfer loss": factors,
  "sortie demand": factors,
  "boil-off": factors,
  cooler: ["none", "failures"],
  "opening level": ["none", "share of maximum fill", "mass"],
};

export const lawNames: { readonly [K in LawKind]: string } = {
  none: "none",
  "by lead time": "exponential, by lead time",
  exponential: "exponential",
  "log-normal": "log-normal",
  triangular: "triangular",
  observed: "list of observed slips",
  quantiles: "table of quantiles",
  probability: "probability",
  trials: "successes in trials",
  "log-normal factor": "log-normal factor",
  failures: "failures and repairs",
  "share of maximum fill": "share of maximum fill",
  mass: "mass",
};

const fresh: { readonly [K in LawKind]: Extract<Law, { kind: K }> } = {
  none: { kind: "none" },
  "by lead time": { kind: "by lead time", noneShare: 0, perDay: 0.31 },
  exponential: { kind: "exponential", noneShare: 0, meanDays: 30 },
  "log-normal": { kind: "log-normal", noneShare: 0, meanDays: 30, sigma: 0.8 },
  triangular: { kind: "triangular", noneShare: 0, lowDays: 0, modeDays: 10, highDays: 60 },
  observed: { kind: "observed", days: [0] },
  quantiles: { kind: "quantiles", noneShare: 0, days: [0, 10, 20, 40, 120] },
  probability: { kind: "probability", probability: 0.05 },
  trials: { kind: "trials", successes: 0, trials: 0 },
  "log-normal factor": { kind: "log-normal factor", sigma: 0.3 },
  failures: { kind: "failures", meanBetweenDays: 365, meanRepairDays: 14, kPerDay: 0.005, cKgPerDay: 0 },
  "share of maximum fill": { kind: "share of maximum fill", sigma: 0.02 },
  mass: { kind: "mass", sigmaKg: 100 },
};

/** An uncertainty with another law of its quantity. */
export const withLaw = (uncertainty: Uncertainty, kind: LawKind): Uncertainty =>
  ({ ...uncertainty, law: fresh[kind] }) as Uncertainty;

/** The default of a quantity, of everything. */
export const freshUncertainty = (quantity: Quantity): Uncertainty => defaultInputs[quantity].uncertainty;
