/** Goes to what was found: selects it, shows its view, and brings its time into sight. */
import type { ActionRegistry } from "../actions/registry.ts";
import type { Session } from "../state/session.ts";
import type { Target } from "./find-items.ts";

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
  session.goTo(target.view, target.selection, target.stretch);
};
