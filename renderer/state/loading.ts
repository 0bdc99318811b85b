/**
 * Fetching: the ledger and the plan cases on screen, each of the newest revision. Requests that come
 * while one is under way are joined into one more; an answer that is no longer asked for is dropped.
 */
import type { Failure } from "../../app/ground/failure.ts";
import type { LedgerInfo, PlanView } from "../../app/ledger/ledger-view.ts";
import type { Client } from "./client.ts";
import type { AppState } from "./app-state.ts";
import { type CaseForecast, forecastCase } from "./case-forecast.ts";
import { keptSelection } from "./kept-selection.ts";
import { asShown } from "./shown-only.ts";
import type { Store } from "./store.ts";

export interface Loading {
  /**
   * An edit is shown that the service has not answered yet; call what comes back when it has. What is fetched meanwhile
   * may be older than what is shown and is dropped: the edit brings its own refresh.
   */
  readonly beginEdit: () => () => void;
  /** Brings the page to the service's revision; with `force` also if it seems to be there. */
  readonly refresh: (force?: boolean) => Promise<void>;
}

const firstCase = (ledger: LedgerInfo): string | null =>
  [...ledger.planCases].sort((a, b) => a.position - b.position)[0]?.id ?? null;

const known = (ledger: LedgerInfo, planCaseId: string | null): string | null =>
  ledger.planCases.some((planCase) => planCase.id === planCaseId) ? planCaseId : null;

/** Whether two views show the same; the revision alone may differ. */
const showsTheSame = (a: PlanView, b: PlanView): boolean =>
  JSON.stringify([a.plan, a.past, a.readings]) === JSON.stringify([b.plan, b.past, b.readings]);

export const createLoading = (client: Client, store: Store<AppState>, fail: (failure: Failure) => void): Loading => {
  /** `shown`: what is on screen. It stays the same object where nothing differs, so that what is held is not put back. */
  const fetchCase = async (
    planCaseId: string | null,
    shown: () => CaseForecast | null,
  ): Promise<CaseForecast | null> => {
    if (planCaseId === null) return null;
    const reply = await client.call("plan.view", { planCaseId });
    if (reply.ok) {
      const present = shown();
      return present !== null && showsTheSame(present.view, reply.value) ? present : forecastCase(reply.value);
    }
    fail(reply.failure);
    return null;
  };

  /** Edits begun since the start, and those that are not answered yet. */
  const edits = { begun: 0, pending: 0 };
  const beginEdit: Loading["beginEdit"] = () => {
    edits.begun += 1;
    edits.pending += 1;
    return () => {
      edits.pending -= 1;
    };
  };

  const fetchAll = async (force: boolean): Promise<void> => {
    const { begun } = edits;
    const info = await client.call("ledger.info", {});
    if (!info.ok) {
      const isNone = info.failure.code === "no ledger";
      store.set({
        phase: isNone ? "none" : "failed",
        failure: isNone ? null : info.failure,
        ledger: null,
        current: null,
        compare: null,
        trial: null,
      });
      return;
    }
    const before = store.get();
    const ledger = asShown(info.value, before);
    const isSameFile = before.ledger?.path === ledger.path;
    if (!force && isSameFile && before.ledger?.revision === ledger.revision && before.current !== null) {
      store.set({ ledger });
      return;
    }
    const planCaseId = known(ledger, before.planCaseId) ?? firstCase(ledger);
    const compareCaseId = known(ledger, before.compareCaseId);
    const [current, compare] = await Promise.all([
      fetchCase(planCaseId, () => store.get().trial?.base ?? store.get().current),
      fetchCase(compareCaseId, () => store.get().compare),
    ]);
    const now = store.get();
    // Something was typed since: its own refresh is to come, and the next thing typed must not build on what it replaces.
    if (edits.begun !== begun || edits.pending > 0) return;
    // Another case was chosen meanwhile: its own refresh is waiting.
    if (now.planCaseId !== before.planCaseId || now.compareCaseId !== before.compareCaseId) return;
    const plan = current?.plan ?? null;
    const kept = now.many.filter((ref) => keptSelection(ref, plan) !== null);
    const many = kept.length === now.many.length ? now.many : kept.length > 1 ? kept : [];
    const selection = keptSelection(now.selection, plan) ?? (now.many.length > 0 ? (kept.at(-1) ?? null) : null);
    store.set({
      phase: "ready",
      failure: null,
      ledger: asShown(info.value, now),
      planCaseId,
      compareCaseId,
      current,
      compare,
      selection,
      many,
      trial: null,
    });
  };

  let isRunning = false;
  let waiting: { force: boolean; done: Promise<void>; finish: () => void } | null = null;

  const run = async (force: boolean): Promise<void> => {
    isRunning = true;
    try {
      await fetchAll(force);
    } finally {
      isRunning = false;
      const next = waiting;
      waiting = null;
      if (next !== null) void run(next.force).finally(next.finish);
    }
  };

  const refresh: Loading["refresh"] = (force = false) => {
    if (!isRunning) return run(force);
    if (waiting === null) {
      const { promise, resolve } = Promise.withResolvers<void>();
      waiting = { force, done: promise, finish: resolve };
    } else waiting.force ||= force;
    return waiting.done;
  };

  return { beginEdit, refresh };
};
