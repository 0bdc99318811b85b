/** Keys as the table of actions writes them: matching a key press, and writing them for a person. */

import type { Action } from "../../app/contract/actions.ts";

interface Press {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

export type Platform = "mac" | "windows" | "linux";

export type HostKind = "desktop" | "browser";

/** The keys of an action in a host; null: it has none. */
export const keysIn = (
  { accelerator, browserAccelerator }: Pick<Action, "accelerator" | "browserAccelerator">,
  kind: HostKind,
): string | null => (kind === "browser" ? (browserAccelerator ?? accelerator) : accelerator);

const shiftedDigits = ")!@#$%^&*(";

/** The key without what Shift makes of it, for digits on the common layout and for letters. */
const plainKey = (press: Press): string => {
  const key = press.key.length === 1 ? press.key.toLowerCase() : press.key;
  const digit = press.shiftKey ? shiftedDigits.indexOf(key) : -1;
  return digit >= 0 ? String(digit) : key;
};

/** Whether a key press is the accelerator ("CmdOrCtrl+Shift+Z") on this platform. */
export const isPressed = (accelerator: string, press: Press, platform: Platform): boolean => {
  const parts = accelerator.split("+");
  const key = parts.at(-1)?.toLowerCase() ?? "";
  const needsCommand = parts.includes("CmdOrCtrl");
  const command = platform === "mac" ? press.metaKey : press.ctrlKey;
  const other = platform === "mac" ? press.ctrlKey : press.metaKey;
  return (
    command === needsCommand &&
    !other &&
    press.shiftKey === parts.includes("Shift") &&
    press.altKey === parts.includes("Alt") &&
    plainKey(press).toLowerCase() === key
  );
};

const words = (platform: Platform): Readonly<Record<string, string>> =>
  platform === "mac"
    ? { CmdOrCtrl: "⌘", Shift: "⇧", Alt: "⌥", Delete: "⌦" }
    : { CmdOrCtrl: "Ctrl", Shift: "Shift", Alt: "Alt", Delete: "Del" };

/** "Ctrl+Shift+Z", or "⇧⌘Z" on a Mac. */
export const acceleratorText = (accelerator: string, platform: Platform): string => {
  const parts = accelerator.split("+").map((part) => words(platform)[part] ?? part);
  return platform === "mac" ? parts.join("") : parts.join("+");
};
