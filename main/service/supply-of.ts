/** The supply check of a plan case as it is now: computed in a thread, kept and shared until the ledger changes. */
import type { PlanView } from "../../app/contract/ledger-view.ts";
import type { SupplyReport } from "../../app/supply/report.ts";
import type { Context } from "./context.ts";
import type { Progress } from "./pool/task.ts";

/** Rejects when the caller is stopped, or when the ledger changes while it is computed. */
export const supplyOf = (
  { session, cache, runner, signal }: Context,
  { plan }: PlanView,
  progress: Progress,
): Promise<SupplyReport> => {
  const { path, revision } = session.store().header();
  return cache.share({ path, revision }, `supply.check ${plan.planCase.id}`, signal, (stop) =>
    runner.run("supply.check", plan, stop, progress),
  );
};
