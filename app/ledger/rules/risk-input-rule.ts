/** Rules of risk inputs: laws whose numbers agree with each other, and one input for one quantity of one thing. */
import type { Entity } from "../../entity/entities.ts";
import type { LossLaw, SlipLaw } from "../../entity/risk-input.ts";
import { type Fault, type Rule, need } from "./rule.ts";

const LAW = "uncertainty.law";

const slipFaults = (law: SlipLaw): readonly Fault[] => {
  if (law.kind === "triangular")
    return [
      ...need(law.lowDays <= law.modeDays, `${LAW}.modeDays`, "The likeliest slip cannot be below the least."),
      ...need(law.modeDays <= law.highDays, `${LAW}.highDays`, "The greatest slip cannot be below the likeliest."),
    ];
  if (law.kind !== "quantiles") return [];
  const fallsAt = law.days.findIndex((days, index) => index > 0 && days < (law.days[index - 1] as number));
  return need(fallsAt < 0, `${LAW}.days.${fallsAt}`, "Quantiles rise from the least to the greatest.");
};

const lossFaults = (law: LossLaw): readonly Fault[] =>
  law.kind === "trials"
    ? need(law.successes <= law.trials, `${LAW}.successes`, "There cannot be more successes than trials.")
    : [];

const lawAgrees: Rule<"riskInput"> = ({ uncertainty }) => {
  switch (uncertainty.quantity) {
    case "flight slip":
    case "sortie slip":
    case "grounding":
      return slipFaults(uncertainty.law);
    case "flight loss":
      return lossFaults(uncertainty.law);
    default:
      return [];
  }
};

const sameThing = (a: Entity<"riskInput">, b: Entity<"riskInput">): boolean =>
  a.uncertainty.quantity === b.uncertainty.quantity &&
  JSON.stringify(a.uncertainty.of) === JSON.stringify(b.uncertainty.of);

const statedOnce: Rule<"riskInput"> = (row, plan) =>
  need(
    !plan.riskInput.some(
      (other) => other.id !== row.id && other.planCaseId === row.planCaseId && sameThing(other, row),
    ),
    "uncertainty.of",
    `The ${row.uncertainty.quantity} of this is stated already in this plan case: change that input instead.`,
  );

const ofThisCase: Rule<"riskInput"> = ({ planCaseId, uncertainty: { of } }, plan) => {
  if (of.kind === "flight")
    return need(
      plan.flight.find((row) => row.id === of.flightId)?.planCaseId === planCaseId,
      "uncertainty.of.flightId",
      "This flight belongs to another plan case.",
    );
  if (of.kind === "sortie")
    return need(
      plan.sortie.find((row) => row.id === of.sortieId)?.planCaseId === planCaseId,
      "uncertainty.of.sortieId",
      "This sortie belongs to another plan case.",
    );
  if (of.kind === "tank")
    return need(
      plan.tank.find((row) => row.id === of.tankId)?.ownerKind === "depot",
      "uncertainty.of.tankId",
      "Only tanks of depots have risk inputs of their own.",
    );
  return [];
};

export const riskInputRules: readonly Rule<"riskInput">[] = [lawAgrees, ofThisCase, statedOnce];
