/** Goes to what was found: selects it, shows its view, and brings its time into sight. */
import type { ActionRegistry } from "../actions/registry.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { TimeWindow } from "../state/app-state.ts";
import type { Session } from "../state/session.ts";
import type { Target } from "./find-items.ts";

/** Room left and right of what is brought into sight. */
const MARGIN_MS = 10 * DAY_MS;

/** The same length of time around the thing, unless it is in sight already; null: the whole campaign is shown. */
export const windowAround = (
  shown: TimeWindow | null,
  { fromAt, untilAt }: { readonly fromAt: number; readonly untilAt: number },
): TimeWindow | null => {
  if (shown === null || (fromAt >= shown.fromAt && untilAt <= shown.untilAt)) return shown;
  const length = Math.max(shown.untilAt - shown.fromAt, untilAt - fromAt + 2 * MARGIN_MS);
  const middle = (fromAt + untilAt) / 2;
  return { fromAt: middle - length / 2, untilAt: middle + length / 2 };
};

/** Does it. An action is carried out as by its menu. */
export const jump = (session: Session, registry: ActionRegistry, target: Target): void => {
  if (target.kind === "action") {
    // After the dialog has closed: what it opens takes its place.
    queueMicrotask(() => registry.run(target.action));
    return;
  }
  if (target.kind === "case") {
    session.chooseCase(target.planCaseId);
    return;
  }
  session.show(target.view);
  session.select(target.selection);
  const { timeWindow } = session.store.get();
  session.store.set({
    timeWindow: target.stretch === null ? timeWindow : windowAround(timeWindow, target.stretch),
  });
};
