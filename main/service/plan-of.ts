/** The plan of a case as the ledger is now: the same object as long as the ledger stays as it is, so that it is hashed and sent once. */
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import type { LedgerStore } from "../../app/contract/store.ts";

interface Seen {
  readonly revision: number;
  readonly views: Map<string, PlanView>;
}

const seen = new WeakMap<LedgerStore, Seen>();

/** Throws "not found" for a case that the ledger does not have. */
export const viewOf = (store: LedgerStore, planCaseId: string, pinnedAt?: number): PlanView => {
  const { revision } = store.header();
  let now = seen.get(store);
  if (now?.revision !== revision) {
    now = { revision, views: new Map() };
    seen.set(store, now);
  }
  // What is asked for at other instants is asked for once.
  if (pinnedAt !== undefined) return planView(store, planCaseId, pinnedAt);
  const view = now.views.get(planCaseId) ?? planView(store, planCaseId);
  now.views.set(planCaseId, view);
  return view;
};
