/** A bridge over one small plan in memory: answers what the session asks, refuses when told to. */
import type { Bridge, BridgeEventName, BridgeEvents } from "../../../app/contract/bridge.ts";
import { CONTRACT_VERSION, type Input } from "../../../app/contract/contract.ts";
import type { Failure, Reply } from "../../../app/ground/failure.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import { smallPlan, smallView } from "../timeline/small-plan.ts";

export interface FakeBridge {
  readonly bridge: Bridge;
  /** Names of the calls, in order. */
  readonly calls: string[];
  /** Refuses the next edit with this. */
  refuse: Failure | null;
  /** Answers wait until this is called, once it was asked for. */
  hold: () => () => void;
  /** Something changed elsewhere. */
  change: (more: Partial<PlanSnapshot>) => void;
}

const unused = (): never => {
  throw new Error("not part of this test");
};

export const fakeBridge = (): FakeBridge => {
  let plan = smallPlan();
  let revision = 1;
  let undoLabel: string | null = null;
  let gate: Promise<void> = Promise.resolve();
  const listeners = new Map<BridgeEventName, Set<(payload: never) => void>>();
  const calls: string[] = [];

  const info = (): LedgerInfo => ({
    programme: "Ridge programme",
    fileName: "ridge.coldstock",
    path: "/ridge.coldstock",
    isDemonstration: false,
    readOnlyBecause: null,
    schemaVersion: 1,
    revision,
    asOfAt: plan.asOfAt,
    isAsOfPinned: false,
    undoLabel,
    redoLabel: null,
    planCases: [plan.planCase],
  });

  const answer = (name: string, input: unknown): unknown => {
    switch (name) {
      case "service.hello":
        return { contractVersion: CONTRACT_VERSION, programVersion: "0", hasLedger: true };
      case "ledger.info":
        return info();
      case "plan.view":
        return { ...smallView(plan), revision };
      case "plan.edit": {
        const { label, changes } = input as Input<"plan.edit">;
        plan = applyChanges(plan, changes);
        revision += 1;
        undoLabel = label;
        return info();
      }
      default:
        return unused();
    }
  };

  const fake: FakeBridge = {
    calls,
    refuse: null,
    hold: () => {
      const { promise, resolve } = Promise.withResolvers<void>();
      gate = promise;
      return resolve;
    },
    change: (more) => {
      plan = { ...plan, ...more };
      revision += 1;
      const payload: BridgeEvents["changed"] = { revision, path: "/ridge.coldstock" };
      for (const listener of listeners.get("changed") ?? []) listener(payload as never);
    },
    bridge: {
      call: async (name, input) => {
        // What the shell asks by itself in the background is no matter of these tests.
        if (name.startsWith("risk.") || name === "supply.check" || name === "job.cancel")
          return await new Promise<never>(() => undefined);
        calls.push(name);
        await gate;
        if (name === "plan.edit" && fake.refuse !== null) {
          const failure = fake.refuse;
          fake.refuse = null;
          return { ok: false, failure };
        }
        return { ok: true, value: answer(name, input) } as Reply<never>;
      },
      on: (event, listener) => {
        const known = listeners.get(event) ?? new Set();
        listeners.set(event, known);
        known.add(listener);
        return () => known.delete(listener);
      },
      host: {
        kind: "browser",
        platform: "linux",
        ledgers: async () => ({ ok: true, value: [] }),
        openLedger: unused,
        pickLedger: unused,
        createLedger: unused,
        openDemonstration: unused,
        importLedger: unused,
        saveCopy: unused,
        pickRows: unused,
        holdDropped: unused,
        importHeld: unused,
        readHeld: unused,
        pickOther: unused,
        previewMerge: unused,
        takeMerge: unused,
        saveText: unused,
        saveFile: unused,
        print: unused,
        copyText: unused,
        copyPicture: unused,
        showActions: () => undefined,
        showTheme: () => undefined,
      },
    },
  };
  return fake;
};
