/** The supply check: computed beside the commands, kept until the ledger changes. */
import { planView } from "../../../app/ledger/plan-view.ts";
import type { HandlersOf } from "../context.ts";

export const supplyHandlers: HandlersOf<"supply.check"> = {
  "supply.check": ({ planCaseId }, { session, cache, runner, signal, progress }) => {
    const store = session.store();
    const { path, revision } = store.header();
    return cache.share({ path, revision }, `supply.check ${planCaseId}`, signal, (stop) =>
      runner.run("supply.check", planView(store, planCaseId).plan, stop, progress),
    );
  },
};
