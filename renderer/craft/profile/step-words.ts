/** Steps of a profile in words: what each kind is called, and what one does, in a line. */
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { ProfileStep } from "../../../app/entity/profile.ts";
import { transferBurnMPerS } from "../../../app/sortie/transfer-burn.ts";
import { formatMass, formatMassChange } from "../../format/mass.ts";
import { formatNumber, formatPercent, withUnit } from "../../format/number.ts";

export const stepKindWords: { readonly [K in ProfileStep["kind"]]: string } = {
  burn: "Burn",
  "thruster burn": "Thruster burn",
  stay: "Coast or stay",
  "load change": "Load change",
  jettison: "Jettison",
  "drop stage": "Drop a stage",
  "leave cache": "Leave a cache",
  "take up cache": "Take up a cache",
};

const speed = (mPerS: number): string => withUnit(formatNumber(mPerS), "m/s");

const burnWords = (step: Extract<ProfileStep, { kind: "burn" }>): string => {
  const { deltaV, marginPercent } = step;
  const base =
    deltaV.kind === "stated"
      ? speed(deltaV.mPerS)
      : deltaV.kind === "computed transfer"
        ? `${speed(transferBurnMPerS(deltaV))} computed`
        : "integrated";
  const allowance = deltaV.allowanceMPerS > 0 ? `, +${speed(deltaV.allowanceMPerS)}` : "";
  return `${base}${allowance}${marginPercent > 0 ? `, +${formatPercent(marginPercent, 0)}` : ""}`;
};

const loadWords = (step: Extract<ProfileStep, { kind: "load change" }>): string => {
  const parts = [
    step.sortieCargo === "none" ? "" : step.sortieCargo === "put off" ? "cargo off" : "cargo aboard",
    step.cargoKg === 0 ? "" : formatMassChange(step.cargoKg),
    step.persons === 0 ? "" : `${step.persons > 0 ? "+" : "−"}${String(Math.abs(step.persons))} persons`,
  ].filter((part) => part !== "");
  return parts.length === 0 ? "nothing" : parts.join(", ");
};

/** "2 076 m/s, +5 %", "6 days, 4 kW". */
export const stepSummary = (step: ProfileStep): string => {
  switch (step.kind) {
    case "burn":
      return burnWords(step);
    case "thruster burn":
      return step.amount.kind === "delta-v" ? speed(step.amount.mPerS) : formatMass(step.amount.massKg);
    case "stay":
      return `${formatNumber(step.days, step.days % 1 === 0 ? 0 : 1)} ${step.days === 1 ? "day" : "days"}, ${withUnit(formatNumber(step.powerKw, 1), "kW")}`;
    case "load change":
      return loadWords(step);
    case "jettison":
      return formatMass(step.massKg);
    case "drop stage":
      return `${step.stage ?? "the lander"}, ${step.fate}`;
    case "leave cache":
    case "take up cache":
      return step.cache;
    default:
      return missingCase(step);
  }
};
