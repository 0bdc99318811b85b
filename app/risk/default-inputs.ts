/** What is taken for a quantity of which nothing is stated: assumed, and said to be so. */
import type { Quantity, Uncertainty } from "../entity/risk-input.ts";

export interface DefaultInput {
  readonly uncertainty: Uncertainty;
  /** Why just this, for a person. */
  readonly why: string;
}

const every = { kind: "every" } as const;

/**
 * One a quantity. The slips grow with the lead time as one cargo programme's did: planned dates of 12 flights against
 * what flew, mean 158 days, about 0.31 day per day of lead. Where nothing published is known to us, the default is
 * common practice without a source, and its reason says so.
 */
export const defaultInputs: { readonly [Q in Quantity]: DefaultInput } = {
  "flight slip": {
    uncertainty: { quantity: "flight slip", of: every, law: { kind: "by lead time", noneShare: 0, perDay: 0.31 } },
    why: "Slips of one cargo programme: 12 flights, 158 days late on average, about 0.31 day for each day of lead.",
  },
  "flight loss": {
    uncertainty: { quantity: "flight loss", of: every, law: { kind: "probability", probability: 0.05 } },
    why: "One flight in twenty: a round figure for a launch vehicle with some history; no source.",
  },
  grounding: {
    uncertainty: { quantity: "grounding", of: every, law: { kind: "exponential", noneShare: 0, meanDays: 180 } },
    why: "Half a year on average from a loss to the next flight of its class; no source.",
  },
  "transfer loss": {
    uncertainty: { quantity: "transfer loss", of: every, law: { kind: "log-normal factor", sigma: 0.3 } },
    why: "Chilldown and transfer losses are poorly known before the first transfers; no source.",
  },
  "sortie slip": {
    uncertainty: { quantity: "sortie slip", of: every, law: { kind: "exponential", noneShare: 0.53, meanDays: 5 } },
    why: "About half of all launch attempts go (135 launches in 255 attempts, IEEE Aerospace 2014); five days to the next try have no source.",
  },
  "sortie demand": {
    uncertainty: { quantity: "sortie demand", of: every, law: { kind: "log-normal factor", sigma: 0.02 } },
    why: "Two per cent on what a sortie needs; no source.",
  },
  "boil-off": {
    uncertainty: { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.3 } },
    why: "An installed blanket leaks 1.2 to 4 times the bare one; within a third of the stated rate is rosier than that, and has no source.",
  },
  cooler: {
    uncertainty: { quantity: "cooler", of: every, law: { kind: "none" } },
    why: "Coolers are taken never to fail: rosier than any cooler is. State failures for each cooled tank.",
  },
  "opening level": {
    uncertainty: { quantity: "opening level", of: every, law: { kind: "share of maximum fill", sigma: 0.02 } },
    why: "A level that was never read is good to two per cent of a full tank; gauging reaches 0.3 to 5 %.",
  },
};
