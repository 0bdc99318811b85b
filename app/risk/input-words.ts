/** A risk input in a sentence: what is uncertain, of what, and how. One wording for screen, paper and command line. */
import { NARROW_SPACE } from "../format/number.ts";
import { missingCase } from "../ground/missing-case.ts";
import type { CoolerLaw, FactorLaw, LevelLaw, LossLaw, Quantity, SlipLaw, Uncertainty } from "../entity/risk-input.ts";

/** What each quantity is called, and what it means. */
export const quantityWords: { readonly [Q in Quantity]: { readonly name: string; readonly means: string } } = {
  "flight slip": { name: "Flight slip", means: "How many days later than planned a flight departs and arrives." },
  "flight loss": { name: "Flight loss", means: "How likely a flight departs and never hands over." },
  grounding: {
    name: "Grounding after a loss",
    means: "How long, from the departure of a lost flight, the other flights of its class are held.",
  },
  "transfer loss": {
    name: "Transfer loss",
    means: "A factor on the chilldown and the share lost when a flight hands over.",
  },
  "sortie slip": { name: "Sortie slip", means: "How many days later than planned a sortie is ready to load." },
  "sortie demand": {
    name: "Propellant needed",
    means: "A factor on what a sortie needs aboard, all propellants alike.",
  },
  "boil-off": { name: "Boil-off", means: "A factor on a tank's loss rates, also while its cooler is down." },
  cooler: { name: "Cooler failures", means: "How often a tank's cooler fails, and how long its repair takes." },
  "opening level": { name: "Opening level", means: "How well the level at the as-of instant is known." },
};

/** At most three significant digits, a thin space in thousands. */
const short = (value: number): string => {
  const text = String(Number(value.toPrecision(3)));
  return text.replace(/\B(?=(\d{3})+$)/g, text.includes(".") || text.includes("e") ? "" : NARROW_SPACE);
};

export const shareWords = (share: number): string => `${short(share * 100)}${NARROW_SPACE}%`;

/** "3 days", "1 day". */
const dayWords = (days: number): string => `${short(days)} ${days === 1 ? "day" : "days"}`;

const unlessNone = (noneShare: number, words: string): string =>
  noneShare === 0 ? words : `${shareWords(noneShare)} none, else ${words}`;

const slipWords = (law: SlipLaw): string => {
  switch (law.kind) {
    case "none":
      return "none";
    case "by lead time":
      return unlessNone(law.noneShare, `exponential, mean ${short(law.perDay)} day for each day of lead time`);
    case "exponential":
      return unlessNone(law.noneShare, `exponential, mean ${dayWords(law.meanDays)}`);
    case "log-normal":
      return unlessNone(law.noneShare, `log-normal, mean ${dayWords(law.meanDays)}, σ ${short(law.sigma)}`);
    case "triangular":
      return unlessNone(
        law.noneShare,
        `triangular, ${short(law.lowDays)} to ${dayWords(law.highDays)}, likeliest ${short(law.modeDays)}`,
      );
    case "observed": {
      const late = law.days.filter((days) => days > 0);
      const range = late.length === 0 ? "" : `, by ${short(Math.min(...late))} to ${dayWords(Math.max(...late))}`;
      return `as observed: ${late.length} of ${law.days.length} late${range}`;
    }
    case "quantiles":
      return unlessNone(
        law.noneShare,
        `table of ${law.days.length} quantiles, ${short(law.days[0] ?? 0)} to ${dayWords(law.days.at(-1) ?? 0)}`,
      );
    default:
      return missingCase(law);
  }
};

const lossWords = (law: LossLaw): string => {
  if (law.kind === "none") return "never lost";
  return law.kind === "probability"
    ? `lost with probability ${shareWords(law.probability)}`
    : `${law.successes} of ${law.trials} succeeded`;
};

const factorWords = (law: FactorLaw): string => {
  if (law.kind === "none") return "exactly as stated";
  const span = (z: number) => short(Math.exp(z * law.sigma));
  return `log-normal factor, σ ${short(law.sigma)}: 90${NARROW_SPACE}% between ${span(-1.645)} and ${span(1.645)}`;
};

const coolerWords = (law: CoolerLaw): string =>
  law.kind === "none"
    ? "never fails"
    : `fails every ${dayWords(law.meanBetweenDays)}, down for ${dayWords(law.meanRepairDays)} on average`;

const levelWords = (law: LevelLaw): string => {
  if (law.kind === "none") return "known exactly";
  return law.kind === "mass"
    ? `normal, σ ${short(law.sigmaKg)}${NARROW_SPACE}kg`
    : `normal, σ ${shareWords(law.sigma)} of maximum fill`;
};

/** The law of an input in words: "40 % none, else exponential, mean 12 days". */
export const lawWords = (uncertainty: Uncertainty): string => {
  switch (uncertainty.quantity) {
    case "flight slip":
    case "sortie slip":
    case "grounding":
      return slipWords(uncertainty.law);
    case "flight loss":
      return lossWords(uncertainty.law);
    case "transfer loss":
    case "sortie demand":
    case "boil-off":
      return factorWords(uncertainty.law);
    case "cooler":
      return coolerWords(uncertainty.law);
    case "opening level":
      return levelWords(uncertainty.law);
    default:
      return missingCase(uncertainty);
  }
};

/** What "every" means for a quantity. */
const everyWords: { readonly [Q in Quantity]: string } = {
  "flight slip": "every flight",
  "flight loss": "every flight",
  grounding: "every class",
  "transfer loss": "every flight",
  "sortie slip": "every sortie",
  "sortie demand": "every sortie",
  "boil-off": "every depot tank",
  cooler: "every depot tank",
  "opening level": "every depot tank",
};

/** Of what an input is stated: "every flight", or the name that `nameOf` gives for an id. */
export const subjectWords = ({ quantity, of }: Uncertainty, nameOf: (id: string) => string): string => {
  switch (of.kind) {
    case "every":
      return everyWords[quantity];
    case "craft class":
      return nameOf(of.craftClassId);
    case "flight":
      return nameOf(of.flightId);
    case "sortie":
      return nameOf(of.sortieId);
    case "tank":
      return nameOf(of.tankId);
    default:
      return missingCase(of);
  }
};

/** "Flight slip, Drover". */
export const inputTitle = (uncertainty: Uncertainty, nameOf: (id: string) => string): string =>
  `${quantityWords[uncertainty.quantity].name}, ${subjectWords(uncertainty, nameOf)}`;
