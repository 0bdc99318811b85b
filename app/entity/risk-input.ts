/** A risk input: how uncertain one quantity of a plan case is, and on whose word. */
import { z } from "zod";
import { days, fraction, id, massKg, note, rateKgPerDay, ratePerDay } from "../ground/quantity.ts";

const MAX_LISTED = 1000;

/** A share of the cases in which the quantity is just as planned. */
const noneShare = fraction;

/** A length that must not be zero: a law with nothing to it is "none". */
const spanDays = days.gt(0, "must be above 0 days");

/** How long something takes beyond the plan, days. Never negative: nothing goes early. */
export const slipLaw = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("none") }),
  /** Mean = perDay × days from the as-of instant to the planned date: dates far off slip more. */
  z.strictObject({ kind: z.literal("by lead time"), noneShare, perDay: z.number().gt(0, "must be above 0").max(10) }),
  z.strictObject({ kind: z.literal("exponential"), noneShare, meanDays: spanDays }),
  /** sigma: standard deviation of the logarithm. */
  z.strictObject({
    kind: z.literal("log-normal"),
    noneShare,
    meanDays: spanDays,
    sigma: z.number().min(0, "a spread cannot be negative").max(5, "a spread above 5 has no mean that can be met"),
  }),
  z.strictObject({ kind: z.literal("triangular"), noneShare, lowDays: days, modeDays: days, highDays: days }),
  /** Each as likely as the other; zeros count, so there is no share of none beside it. */
  z.strictObject({
    kind: z.literal("observed"),
    days: z.array(days).min(1, "a list of observed slips needs one at least").max(MAX_LISTED),
  }),
  /** Quantiles at equal steps from the least (share 0) to the greatest (share 1), straight lines between them. */
  z.strictObject({
    kind: z.literal("quantiles"),
    noneShare,
    days: z.array(days).min(2, "a table of quantiles needs two at least").max(MAX_LISTED),
  }),
]);

/** How likely a flight is lost between departure and handover. */
export const lossLaw = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("none") }),
  z.strictObject({
    kind: z.literal("probability"),
    probability: z.number().min(0, "a probability lies between 0 and 1").max(1, "a probability lies between 0 and 1"),
  }),
  /** Known from trials only: the success probability is itself uncertain, Beta(successes + 1, failures + 1). */
  z.strictObject({
    kind: z.literal("trials"),
    successes: z.int().min(0).max(100_000),
    trials: z.int().min(0).max(100_000),
  }),
]);

/** A factor of median 1: log-normal, sigma is the standard deviation of the logarithm. */
export const factorLaw = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("none") }),
  z.strictObject({
    kind: z.literal("log-normal factor"),
    sigma: z.number().gt(0, "must be above 0").max(2, "a spread above 2 makes a factor of 7 an everyday thing"),
  }),
]);

/** A cooler that fails and is repaired, both exponential; the tank's loss while it is down. */
export const coolerLaw = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("none") }),
  z.strictObject({
    kind: z.literal("failures"),
    meanBetweenDays: spanDays,
    meanRepairDays: spanDays,
    kPerDay: ratePerDay,
    cKgPerDay: rateKgPerDay,
  }),
]);

/** A level known to a standard uncertainty (1 σ), normal, kept between empty and maximum fill. */
export const levelLaw = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("none") }),
  z.strictObject({ kind: z.literal("share of maximum fill"), sigma: z.number().gt(0, "must be above 0").max(1) }),
  z.strictObject({ kind: z.literal("mass"), sigmaKg: massKg.gt(0, "must be above 0 kg") }),
]);

const every = z.strictObject({ kind: z.literal("every") });
const ofClass = z.strictObject({ kind: z.literal("craft class"), craftClassId: id });
const ofFlight = z.strictObject({ kind: z.literal("flight"), flightId: id });
const ofSortie = z.strictObject({ kind: z.literal("sortie"), sortieId: id });
const ofTank = z.strictObject({ kind: z.literal("tank"), tankId: id });

const ofFlights = z.discriminatedUnion("kind", [every, ofClass, ofFlight]);
const ofClasses = z.discriminatedUnion("kind", [every, ofClass]);
const ofSorties = z.discriminatedUnion("kind", [every, ofSortie]);
const ofTanks = z.discriminatedUnion("kind", [every, ofTank]);

/** What is uncertain, of what (the narrowest that is stated counts), and how. */
export const uncertainty = z.discriminatedUnion("quantity", [
  z.strictObject({ quantity: z.literal("flight slip"), of: ofFlights, law: slipLaw }),
  z.strictObject({ quantity: z.literal("flight loss"), of: ofFlights, law: lossLaw }),
  /** After a loss: how long the other flights of the class are held. */
  z.strictObject({ quantity: z.literal("grounding"), of: ofClasses, law: slipLaw }),
  /** Factor on chilldown and on the share lost of what flows to the depot. */
  z.strictObject({ quantity: z.literal("transfer loss"), of: ofFlights, law: factorLaw }),
  z.strictObject({ quantity: z.literal("sortie slip"), of: ofSorties, law: slipLaw }),
  /** Factor on what a sortie needs aboard, of every propellant alike. */
  z.strictObject({ quantity: z.literal("sortie demand"), of: ofSorties, law: factorLaw }),
  /** Factor on the loss rates of a depot's tank, also while its cooler is down. */
  z.strictObject({ quantity: z.literal("boil-off"), of: ofTanks, law: factorLaw }),
  z.strictObject({ quantity: z.literal("cooler"), of: ofTanks, law: coolerLaw }),
  z.strictObject({ quantity: z.literal("opening level"), of: ofTanks, law: levelLaw }),
]);

export const riskInput = z.strictObject({
  id,
  planCaseId: id,
  uncertainty,
  /** Where the numbers come from; null: assumed. */
  source: z.string().min(1, "name the source, or mark it as assumed").max(200).nullable(),
  note,
});

export type SlipLaw = Readonly<z.infer<typeof slipLaw>>;
export type LossLaw = Readonly<z.infer<typeof lossLaw>>;
export type FactorLaw = Readonly<z.infer<typeof factorLaw>>;
export type CoolerLaw = Readonly<z.infer<typeof coolerLaw>>;
export type LevelLaw = Readonly<z.infer<typeof levelLaw>>;
export type Uncertainty = Readonly<z.infer<typeof uncertainty>>;
export type Quantity = Uncertainty["quantity"];
export type RiskInput = Readonly<z.infer<typeof riskInput>>;

export const quantities: readonly Quantity[] = uncertainty.options.map((option) => option.shape.quantity.value);
