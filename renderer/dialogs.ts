/** The dialogs, by the action that opens each: one line a dialog. An action that stands here needs no other handler. */
import type { ComponentType } from "react";
import type { ActionId } from "../app/contract/actions.ts";
import type { DialogRequest } from "./state/app-state.ts";
import { AboutDialog } from "./shell/about-dialog.tsx";
import { KeyboardDialog } from "./shell/keyboard-dialog.tsx";

export interface DialogProps {
  readonly request: DialogRequest;
  readonly close: () => void;
}

export interface DialogEntry {
  readonly component: ComponentType<DialogProps>;
  /** Whether there must be an open ledger; whether it must be writable. */
  readonly needs: "nothing" | "ledger" | "writable ledger";
}

export const dialogs: Partial<Readonly<Record<ActionId, DialogEntry>>> = {
  "help.keyboard": { component: KeyboardDialog, needs: "nothing" },
  "help.about": { component: AboutDialog, needs: "nothing" },
};
