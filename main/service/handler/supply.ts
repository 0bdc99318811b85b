/** The supply check: computed beside the commands, kept until the ledger changes. */
import { planView } from "../../../app/ledger/plan-view.ts";
import type { HandlersOf } from "../context.ts";

export const supplyHandlers: HandlersOf<"supply.check"> = {
  "supply.check": ({ planCaseId }, { session, cache, runner, signal, progress }) => {
    const { plan, revision } = planView(session.store(), planCaseId);
    const stamp = { path: session.store().header().path, revision };
    return cache.share(stamp, `supply.check ${planCaseId}`, signal, (stop) =>
      runner.run("supply.check", plan, stop, progress),
    );
  },
};
