/** How uncertain Tarn's plans are: some of it stated with a source, some left assumed. Invented, like all of it. */
import type { Entity } from "../entity/entities.ts";
import type { Uncertainty } from "../entity/risk-input.ts";
import { tarnCases } from "./tarn-plan.ts";

interface Stated {
  readonly name: string;
  readonly uncertainty: Uncertainty;
  /** null: assumed. */
  readonly source: string | null;
  readonly note: string;
}

const every = { kind: "every" } as const;

const stated: readonly Stated[] = [
  {
    name: "slip",
    uncertainty: {
      quantity: "flight slip",
      of: every,
      law: { kind: "exponential", noneShare: 0.6, meanDays: 8 },
    },
    source: "Launch record of both tanker classes (invented)",
    note: "Far shorter than what cargo programmes have met: these tankers depart from a ground that launches every week.",
  },
  {
    name: "loss",
    uncertainty: { quantity: "flight loss", of: every, law: { kind: "trials", successes: 58, trials: 59 } },
    source: "Launch record of both tanker classes (invented)",
    note: "",
  },
  {
    name: "grounding",
    uncertainty: {
      quantity: "grounding",
      of: every,
      law: { kind: "triangular", noneShare: 0, lowDays: 20, modeDays: 60, highDays: 150 },
    },
    source: null,
    note: "How long an inquiry would take is anybody's guess.",
  },
  {
    name: "boil-off",
    uncertainty: { quantity: "boil-off", of: every, law: { kind: "log-normal factor", sigma: 0.08 } },
    source: "Spread of the fitted rates of half a year (invented)",
    note: "",
  },
];

/** The same inputs in every plan case. */
export const tarnRiskInputs: readonly Entity<"riskInput">[] = tarnCases.flatMap(({ id: planCaseId }) =>
  stated.map(({ name, uncertainty, source, note }) => ({
    id: `${planCaseId}.risk-${name}`,
    planCaseId,
    uncertainty,
    source,
    note,
  })),
);
