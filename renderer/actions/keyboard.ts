/** The page's keyboard: one listener that finds the action of a key press. */
import { type Action, type ActionId, actions } from "../../app/contract/actions.ts";
import { type HostKind, type Platform, isPressed, keysIn } from "./accelerator.ts";
import type { ActionRegistry } from "./registry.ts";

/** In a field these keys belong to its text. */
const ofText: ReadonlySet<ActionId> = new Set<ActionId>(["edit.undo", "edit.redo", "edit.delete"]);

const isTextField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable ||
    target instanceof HTMLTextAreaElement ||
    (target instanceof HTMLInputElement && !["checkbox", "radio", "button", "range"].includes(target.type)) ||
    target.getAttribute("role") === "spinbutton");

const pageActions: readonly (Action & { readonly id: ActionId })[] = actions.filter((action) => action.by === "page");

/** Listens on the window; the answer stops listening. While a dialog is open nothing behind it is run. */
export const listenToKeyboard = (
  registry: ActionRegistry,
  platform: Platform,
  kind: HostKind,
  /** Says why an action cannot be done whose keys were pressed. */
  tellWhy: (reason: string) => void,
): (() => void) => {
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    if (document.querySelector("[role=dialog],[role=alertdialog],[role=menu]") !== null) return;
    for (const action of pageActions) {
      const keys = keysIn(action, kind);
      if (keys === null || !isPressed(keys, event, platform)) continue;
      if (ofText.has(action.id) && isTextField(event.target)) continue;
      if (registry.run(action.id)) event.preventDefault();
      // A key of ours that cannot be used now must not do what the browser makes of it (print, close, reload).
      else {
        if (event.ctrlKey || event.metaKey || /^F\d+$/.test(event.key)) event.preventDefault();
        const reason = registry.reasonOf(action.id);
        if (reason !== null) tellWhy(reason);
      }
      return;
    }
  };
  window.addEventListener("keydown", onKeyDown);
  return () => window.removeEventListener("keydown", onKeyDown);
};
