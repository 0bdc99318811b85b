/** What a run of the risk starts from, of the ledger as it is now: the same object as long as it stays so, hashed and sent once. */
import { createHash } from "node:crypto";
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import type { RiskBase } from "../../app/risk/ask-risk.ts";
import type { KeptRun } from "../../app/risk/kept-run.ts";
import { countedReadings } from "../../app/risk/inputs-in-force.ts";
import { KERNEL_VERSION } from "../../app/risk/risk-job.ts";
import { viewOf } from "./plan-of.ts";
import { digestOf } from "./work/digest.ts";

export const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");

const hashOf = ({ plan, readings }: PlanView): string => digestOf([{ plan, readings }], { after: "", as: "hex" });

/** One base a view. */
const bases = new WeakMap<PlanView, RiskBase>();

/** Throws "not found" for a case that the ledger does not have. */
export const riskBaseOf = (store: LedgerStore, planCaseId: string): RiskBase => {
  const view = viewOf(store, planCaseId);
  const known = bases.get(view);
  if (known !== undefined) return known;
  const { plan, readings } = view;
  const base = { plan, readings: countedReadings(readings), inputHash: hashOf(view) };
  bases.set(view, base);
  return base;
};

/** The pairs of bases that were compared, so that they are sent once. */
const pairs = new WeakMap<RiskBase, WeakMap<RiskBase, { readonly first: RiskBase; readonly second: RiskBase }>>();

export const riskPairOf = (first: RiskBase, second: RiskBase) => {
  const known = pairs.get(first) ?? new WeakMap<RiskBase, { readonly first: RiskBase; readonly second: RiskBase }>();
  pairs.set(first, known);
  const pair = known.get(second) ?? { first, second };
  known.set(second, pair);
  return pair;
};

/** The hash of a case's inputs as they are now; null: the case is gone. */
export const riskHashNow = (store: LedgerStore, planCaseId: string): string | null =>
  store.entities().planCase.some(({ id }) => id === planCaseId) ? riskBaseOf(store, planCaseId).inputHash : null;

/** Whether a kept run is of another plan, other records or another computation than those of now. */
export const isStaleRun = (store: LedgerStore, run: KeptRun): boolean =>
  run.kernelVersion !== KERNEL_VERSION || run.inputHash !== riskHashNow(store, run.planCaseId);

/** The kept run of a case with the most runs of all that are of the plan as it is now; null: none is. */
export const currentRun = (store: LedgerStore, planCaseId: string): KeptRun | null => {
  const [best] = store
    .riskRuns()
    .filter((run) => run.planCaseId === planCaseId && !isStaleRun(store, run))
    .toSorted((a, b) => b.replications - a.replications);
  return best ?? null;
};
