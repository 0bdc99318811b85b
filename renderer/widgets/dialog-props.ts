/** What every dialog is given. */
import type { DialogRequest } from "../state/app-state.ts";

export interface DialogProps {
  readonly request: DialogRequest;
  readonly close: () => void;
}
