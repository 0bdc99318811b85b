/** What a plan's probability hangs on, and how it differs from another case's: paired runs of variants over the threads. */
import { z } from "zod";
import type { PlanSnapshot } from "../entity/plan.ts";
import { isAhead } from "../forecast/compile-flights.ts";
import type { Leading, Working } from "../work/working.ts";
import { stopped } from "../work/working.ts";
import type { Dropped, Driver, RiskCauses, RiskDifference } from "./answer.ts";
import { type RiskBase, kernelFor, refuseEmpty } from "./ask-risk.ts";
import { inputsInForce } from "./inputs-in-force.ts";
import { type OutcomeTable, differenceOf, driverOf, droppedOf, joinTables, rankDrivers } from "./paired.ts";
import type { RiskVariant } from "./risk-job.ts";
import { createKernel, outcomesOf } from "./run-blocks.ts";
import { BLOCK } from "./stream.ts";

/** Pairs of flights are tried among so many whose loss alone costs most. */
const PAIRED_FLIGHTS = 8;

/** The most replications that a paired run keeps: a byte a sortie and replication. */
const MAX_PAIRED = 1_000_000;

export const causesAsked = z.strictObject({
  seed: z.int().min(0).max(4_294_967_295),
  runs: z.int().min(BLOCK).max(MAX_PAIRED),
});
export type CausesAsked = Readonly<z.infer<typeof causesAsked>>;

/** One variant over blocks [from, until). `isOther`: of the second base of a comparison. */
export interface VariantPart {
  readonly variant: RiskVariant;
  readonly from: number;
  readonly until: number;
}

/** What happens in one part. */
export const runVariant = (base: RiskBase, { seed }: CausesAsked, part: VariantPart, working: Working): Uint8Array => {
  const { variant, from, until } = part;
  const kernel = kernelFor(base, `variant/${seed}/${JSON.stringify(variant)}`, () => ({
    plan: base.plan,
    readings: base.readings,
    seed,
    bandsAt: [],
    variant,
  }));
  const table = outcomesOf(kernel, from, until, () => working.shouldStop());
  if (table === null) throw stopped();
  return table;
};

type LeadingVariants = Leading<RiskCauses, VariantPart, Uint8Array>;

const PART_BLOCKS = 32;

const partsOf = (variant: RiskVariant, blocks: number): readonly VariantPart[] =>
  Array.from({ length: Math.ceil(blocks / PART_BLOCKS) }, (_, n) => ({
    variant,
    from: n * PART_BLOCKS,
    until: Math.min(blocks, (n + 1) * PART_BLOCKS),
  }));

/** Keys of the sorties in the order in which outcomes stand. */
const keysOf = (base: RiskBase, seed: number): readonly string[] => {
  const job = { plan: base.plan, readings: base.readings, seed, bandsAt: [], variant: {} };
  const keys = new Map(base.plan.sorties.map((row) => [row.id, row.key]));
  return createKernel(job).replicator.model.plan.sortieIds.map((id) => keys.get(id) ?? id);
};

/** Tables of variants, all in one round; null: stopped. */
const tablesOf = async (
  leading: LeadingVariants,
  keys: readonly string[],
  variants: readonly RiskVariant[],
  blocks: number,
  tell: (done: number, all: number) => void,
): Promise<readonly (OutcomeTable | null)[]> => {
  const parts = variants.flatMap((variant) => partsOf(variant, blocks));
  const each = parts.length / Math.max(1, variants.length);
  let done = 0;
  const tables = await leading.runParts(parts, () => {
    done += 1;
    tell(done, parts.length);
  });
  return variants.map((_, n) => {
    const own = tables.slice(n * each, (n + 1) * each);
    return own.some((part) => part === null) ? null : joinTables(keys, own as readonly Uint8Array[]);
  });
};

/** Flights whose loss is worth asking about: planned ones, and those under way. */
const flightIdsOf = (plan: PlanSnapshot): readonly string[] => plan.flights.filter(isAhead).map(({ id }) => id);

const pairsOf = (dropOne: readonly Dropped[]): readonly (readonly [string, string])[] => {
  const worst = dropOne.slice(0, PAIRED_FLIGHTS).flatMap(({ flightIds }) => flightIds);
  return worst.flatMap((a, index) => worst.slice(index + 1).map((b) => [a, b] as const));
};

const byHarm = (dropped: readonly Dropped[]): readonly Dropped[] =>
  dropped.toSorted((a, b) => a.change.value - b.change.value || (a.flightIds.join() < b.flightIds.join() ? -1 : 1));

/** Leads the runs of all variants; what is known so far is told after each of the three rounds. */
export const leadCauses = async (base: RiskBase, asked: CausesAsked, leading: LeadingVariants): Promise<RiskCauses> => {
  refuseEmpty(base.plan);
  const blocks = Math.ceil(asked.runs / BLOCK);
  const keys = keysOf(base, asked.seed);
  const found: { drivers: readonly Driver[]; dropOne: readonly Dropped[]; dropTwo: readonly Dropped[] } = {
    drivers: [],
    dropOne: [],
    dropTwo: [],
  };
  const causes = (isWhole: boolean): RiskCauses => ({
    seed: asked.seed,
    inputHash: base.inputHash,
    replications: blocks * BLOCK,
    isWhole,
    ...found,
  });
  const tell = (words: string, from: number, span: number) => (done: number, all: number) =>
    leading.tell(() => ({ share: from + (span * done) / all, words, partial: causes(false) }));

  const [plain] = await tablesOf(leading, keys, [{}], blocks, tell("Running the plan", 0, 0.05));
  if (plain === undefined || plain === null) return causes(false);
  const inputs = inputsInForce(base.plan, base.readings).list.filter(
    ({ uncertainty }) => uncertainty.law.kind !== "none",
  );
  const taken = inputs.flatMap(({ inputId }): readonly RiskVariant[] => [
    { frozenInputIds: [inputId] },
    { certainInputIds: [inputId] },
  ]);
  const frozen = await tablesOf(leading, keys, taken, blocks, tell("Freezing each input", 0.05, 0.25));
  found.drivers = rankDrivers(
    inputs.flatMap(({ inputId }, n) => {
      const [one, two] = [frozen[2 * n], frozen[2 * n + 1]];
      return one === undefined || one === null || two === undefined || two === null
        ? []
        : [driverOf(inputId, plain, one, two)];
    }),
  );
  if (frozen.includes(null)) return causes(false);

  const drop = async (sets: readonly (readonly string[])[], told: ReturnType<typeof tell>) => {
    const variants = sets.map((droppedFlightIds): RiskVariant => ({ droppedFlightIds }));
    const tables = await tablesOf(leading, keys, variants, blocks, told);
    const dropped = sets.flatMap((flightIds, n) => {
      const table = tables[n];
      return table === undefined || table === null ? [] : [droppedOf(flightIds, plain, table)];
    });
    return { dropped: byHarm(dropped), isWhole: !tables.includes(null) };
  };
  const one = await drop(
    flightIdsOf(base.plan).map((id) => [id]),
    tell("Leaving out each flight", 0.3, 0.4),
  );
  found.dropOne = one.dropped;
  if (!one.isWhole) return causes(false);
  const two = await drop(pairsOf(found.dropOne), tell("Leaving out two flights", 0.7, 0.3));
  found.dropTwo = two.dropped;
  return causes(two.isWhole);
};

/** Two bases, asked about together. */
export interface ComparedBases {
  readonly first: RiskBase;
  readonly second: RiskBase;
}

export interface ComparedPart {
  readonly which: "first" | "second";
  readonly from: number;
  readonly until: number;
}

export const runCompared = (
  bases: ComparedBases,
  asked: CausesAsked,
  part: ComparedPart,
  working: Working,
): Uint8Array => runVariant(bases[part.which], asked, { variant: {}, from: part.from, until: part.until }, working);

/** Leads a comparison. Throws "cancelled" if it is stopped: half a pairing says nothing. */
export const leadCompared = async (
  { first, second }: ComparedBases,
  asked: CausesAsked,
  leading: Leading<RiskDifference, ComparedPart, Uint8Array>,
): Promise<RiskDifference> => {
  refuseEmpty(first.plan);
  refuseEmpty(second.plan);
  const blocks = Math.ceil(asked.runs / BLOCK);
  const parts = (["first", "second"] as const).flatMap((which) =>
    partsOf({}, blocks).map(({ from, until }) => ({ which, from, until })),
  );
  let done = 0;
  const tables = await leading.runParts(parts, () => {
    done += 1;
    leading.tell({ share: done / parts.length, words: "Running both plan cases" });
  });
  const whole = tables.filter((table) => table !== null);
  if (whole.length < tables.length) throw stopped();
  const half = whole.length / 2;
  return differenceOf(
    [first.plan.planCase.id, second.plan.planCase.id],
    joinTables(keysOf(first, asked.seed), whole.slice(0, half)),
    joinTables(keysOf(second, asked.seed), whole.slice(half)),
  );
};
