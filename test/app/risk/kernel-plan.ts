/** Small plans with stated risk inputs, for tests of the risk. Everything that is not stated is certain. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { type Uncertainty, quantities } from "../../../app/entity/risk-input.ts";
import type { RiskJob, RiskVariant } from "../../../app/risk/risk-job.ts";
import { createKernel, runBlocks, tallyFor } from "../../../app/risk/run-blocks.ts";
import { answerOf } from "../../../app/risk/answer-of.ts";
import type { Tally } from "../../../app/risk/tally.ts";

/** The plan with these inputs; all quantities of which none is stated of everything are "none". */
export const withInputs = (plan: PlanSnapshot, stated: readonly Uncertainty[]): PlanSnapshot => {
  const silent = quantities
    .filter((quantity) => !stated.some((one) => one.quantity === quantity && one.of.kind === "every"))
    .map((quantity): Uncertainty => ({ quantity, of: { kind: "every" }, law: { kind: "none" } }));
  return {
    ...plan,
    riskInputs: [...silent, ...stated].map((uncertainty, n) => ({
      id: `input-${n}`,
      planCaseId: plan.planCase.id,
      uncertainty,
      source: "stated for a test",
      note: "",
    })),
  };
};

export interface JobOptions {
  readonly seed?: number;
  readonly bandsAt?: readonly number[];
  readonly variant?: RiskVariant;
}

export const jobOf = (plan: PlanSnapshot, { seed = 1, bandsAt = [], variant = {} }: JobOptions = {}): RiskJob => ({
  plan,
  readings: [],
  seed,
  bandsAt,
  variant,
});

/** A tally of the first so many blocks of 64. */
export const tallyOf = (job: RiskJob, blocks: number): Tally => {
  const kernel = createKernel(job);
  const tally = tallyFor(kernel, 0);
  runBlocks(kernel, tally, 0, blocks);
  return tally;
};

export const answerFor = (job: RiskJob, blocks: number) => {
  const kernel = createKernel(job);
  const tally = tallyFor(kernel, 0);
  runBlocks(kernel, tally, 0, blocks);
  return answerOf(
    kernel.replicator.model,
    tally,
    { seed: job.seed, inputHash: "", kernelVersion: 1 },
    "number reached",
  );
};

/** The bytes of a tally, for comparing. */
export const bytesOf = (tally: Tally): string =>
  Object.entries(tally)
    .filter(([name]) => name !== "shape")
    .map(([name, column]) => {
      const { buffer, byteOffset, byteLength } = column as Float64Array;
      return `${name}:${Buffer.from(buffer, byteOffset, byteLength).toString("base64")}`;
    })
    .join("\n");
