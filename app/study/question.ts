/** What a study is asked, as a person writes it: what is varied, by which values, where, and what is asked at each point. */
import { z } from "zod";
import { runAsked } from "../risk/ask-risk.ts";
import { resupplyAsked, usualAsked } from "../resupply/asked.ts";
import { label } from "../ground/quantity.ts";

/** More points than these are no study but a mistake. */
export const MAX_POINTS = 100_000_000;
export const MAX_INPUTS = 4;

const value = z.number().min(-1e12).max(1e12);
const count = z.int().min(1, "one value is the least").max(1_000_000);

/** By which values an input goes. `count`: so many of them on a grid; elsewhere the whole range is used. */
export const valuesAsked = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("list"),
    list: z.array(value).min(1, "a list of values has one at least").max(10_000),
  }),
  /** From `from` to `to`, both of them included, at equal steps. */
  z.strictObject({ kind: z.literal("range"), from: value, to: value, count: count.optional() }),
  /** On a grid the middles of `count` parts of equal probability. sigma: standard deviation. */
  z.strictObject({
    kind: z.literal("normal"),
    mean: value,
    sigma: z.number().gt(0, "must be above 0"),
    least: value.optional(),
    most: value.optional(),
    count: count.optional(),
  }),
  /** sigma: standard deviation of the logarithm. */
  z.strictObject({
    kind: z.literal("log-normal"),
    median: z.number().gt(0, "must be above 0"),
    sigma: z.number().gt(0, "must be above 0").max(5),
    count: count.optional(),
  }),
  z.strictObject({ kind: z.literal("triangular"), low: value, mode: value, high: value, count: count.optional() }),
]);
export type ValuesAsked = Readonly<z.infer<typeof valuesAsked>>;

/** A row of the ledger by its name or its id. */
const named = z.string().min(1).max(80);
const values = valuesAsked;

/** What is varied. Each further quantity is one more member here, and the compiler leads to `resolve.ts`. */
export const inputAsked = z.discriminatedUnion("quantity", [
  /** Factor on the loss rates of a depot's tank (of every one), at all times, outages included. */
  z.strictObject({ quantity: z.literal("loss factor"), tank: named.optional(), values }),
  /** What the full tank loses at the as-of instant, %/day; at other times in proportion. */
  z.strictObject({ quantity: z.literal("loss rate"), tank: named, values }),
  /** The coolers of a tank's heat balance stand still for so many days from an instant on. */
  z.strictObject({ quantity: z.literal("cooler outage"), tank: named, from: z.string().max(40), values }),
  /** Maximum fill, kg; a volume that is stated goes along. */
  z.strictObject({ quantity: z.literal("tank size"), tank: named, values }),
  /** What is kept above empty, kg. */
  z.strictObject({ quantity: z.literal("reserve"), tank: named, values }),
  /** What each flight of a class still to leave is loaded with of a propellant, kg. */
  z.strictObject({ quantity: z.literal("payload"), class: named, propellant: named, values }),
  /** Days from departure to arrival of each flight of a class still to leave; the departure stays. */
  z.strictObject({ quantity: z.literal("transit"), class: named, values }),
  /** Days by which each flight (of a class) still to leave is later. */
  z.strictObject({ quantity: z.literal("flight delay"), class: named.optional(), values }),
  /** Days from one departure of the class to the next: the first planned one stays, the others follow it. */
  z.strictObject({ quantity: z.literal("cadence"), class: named, values }),
  /** How many planned flights of the class are not flown, from the first on or from the last back. */
  z.strictObject({ quantity: z.literal("flights left out"), class: named, which: z.enum(["first", "last"]), values }),
  /** What sorties (one of them) that state a cargo take down, kg. */
  z.strictObject({ quantity: z.literal("cargo"), sortie: named.optional(), values }),
  /** Days from one loading to the next: the first planned one stays, the others follow it. */
  z.strictObject({ quantity: z.literal("sortie cadence"), values }),
  /** Probability that a flight of the class is not lost, whatever is stated for single flights. */
  z.strictObject({ quantity: z.literal("reliability"), class: named, values }),
  /** Mean of an exponential slip of each flight of the class, days, whatever is stated for single flights. */
  z.strictObject({ quantity: z.literal("slip"), class: named, values }),
]);
export type InputAsked = Readonly<z.infer<typeof inputAsked>>;
export type StudyQuantity = InputAsked["quantity"];

export const studyQuantities: readonly StudyQuantity[] = inputAsked.options.map(
  (option) => option.shape.quantity.value,
);

export const designAsked = z.discriminatedUnion("kind", [
  /** Every value with every other; the last input goes quickest. */
  z.strictObject({ kind: z.literal("grid") }),
  /** So many points that fill the space evenly. */
  z.strictObject({ kind: z.literal("sobol"), points: z.int().min(1).max(MAX_POINTS) }),
  /** For the ranking of what matters: `base` × (inputs + 2) points. */
  z.strictObject({
    kind: z.literal("what matters"),
    base: z
      .int()
      .min(8, "8 is the least")
      .max(1 << 24),
  }),
]);
export type DesignAsked = Readonly<z.infer<typeof designAsked>>;

export const outcomeAsked = z.discriminatedUnion("kind", [
  /** How the sorties are supplied and by what margin, by the exact forecast; `each`: sortie by sortie, too. */
  z.strictObject({ kind: z.literal("supply"), each: z.boolean().default(true) }),
  /** The verdict with all that breaks or conditions it: ports, hulls, engines, overflow. */
  z.strictObject({ kind: z.literal("verdict") }),
  /** How likely it is to hold, from so many runs under the same draws at every point. */
  z.strictObject({
    kind: z.literal("risk"),
    seed: runAsked.shape.seed.default(1),
    runs: runAsked.shape.runs.default(4096),
  }),
  /** The fewest flights, and what they cost. What is not stated is as usual. */
  z.strictObject({
    kind: z.literal("resupply"),
    asked: resupplyAsked
      .partial()
      .transform((some) => resupplyAsked.parse({ ...usualAsked, ...some }))
      .optional(),
  }),
]);
export type OutcomeAsked = Readonly<z.infer<typeof outcomeAsked>>;

export const studyAsked = z.strictObject({
  name: label,
  /** By name or id; left out: the first. */
  case: named.optional(),
  inputs: z.array(inputAsked).min(1, "a study varies one input at least").max(MAX_INPUTS, "four inputs at most"),
  design: designAsked,
  ask: z.array(outcomeAsked).min(1, "say what is asked at each point").max(4),
});
export type StudyAsked = Readonly<z.infer<typeof studyAsked>>;
