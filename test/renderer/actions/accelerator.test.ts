/** Keys of the table of actions. */
import { describe, expect, it } from "vitest";
import { type Action, actions } from "../../../app/contract/actions.ts";
import { acceleratorText, isPressed, keysIn } from "../../../renderer/actions/accelerator.ts";

const press = (key: string, ...held: readonly string[]) => ({
  key,
  ctrlKey: held.includes("ctrl"),
  metaKey: held.includes("meta"),
  shiftKey: held.includes("shift"),
  altKey: held.includes("alt"),
});

describe("a key press", () => {
  it("is Ctrl here and Command on a Mac", () => {
    expect(isPressed("CmdOrCtrl+Z", press("z", "ctrl"), "linux")).toBe(true);
    expect(isPressed("CmdOrCtrl+Z", press("z", "meta"), "mac")).toBe(true);
    expect(isPressed("CmdOrCtrl+Z", press("z", "ctrl"), "mac")).toBe(false);
  });
  it("with one key more is another", () => {
    expect(isPressed("CmdOrCtrl+Z", press("Z", "ctrl", "shift"), "linux")).toBe(false);
    expect(isPressed("CmdOrCtrl+Shift+Z", press("Z", "ctrl", "shift"), "linux")).toBe(true);
    expect(isPressed("CmdOrCtrl+Z", press("z", "ctrl", "alt"), "linux")).toBe(false);
  });
  it("of a shifted digit is the digit", () =>
    expect(isPressed("CmdOrCtrl+Shift+0", press(")", "ctrl", "shift"), "windows")).toBe(true));
  it("may be a named key alone", () => {
    expect(isPressed("F5", press("F5"), "linux")).toBe(true);
    expect(isPressed("Delete", press("Delete"), "linux")).toBe(true);
    expect(isPressed("Delete", press("Delete", "ctrl"), "linux")).toBe(false);
  });
});

describe("the table", () => {
  const table: readonly Action[] = actions;
  it.each(["desktop", "browser"] as const)("gives no key to two actions on the %s", (kind) => {
    const keys = table.flatMap((action) => keysIn(action, kind) ?? []);
    expect(keys.length).toBeGreaterThan(20);
    expect(new Set(keys).size).toBe(keys.length);
  });
  // Common practice of the browsers in wide use, from memory: new window, tab and private window, close, quit.
  it("asks a browser for no key that it keeps for itself", () => {
    const kept = ["N", "T", "W", "Q", "Shift+N", "Shift+T", "Shift+W", "Shift+P"].map((key) => `CmdOrCtrl+${key}`);
    const asked = table.filter(({ by }) => by === "page").flatMap((action) => keysIn(action, "browser") ?? []);
    expect(asked.filter((key) => kept.includes(key))).toEqual([]);
  });
  // WCAG 2.2, success criterion 2.1.4: no shortcut of a single character alone.
  it("has no single letter without a modifier", () => {
    const bare = table.filter(({ accelerator }) => accelerator !== null && /^(Shift\+)?.$/.test(accelerator));
    expect(bare).toEqual([]);
  });
});

it("is written as each system writes it", () => {
  expect(acceleratorText("CmdOrCtrl+Shift+Z", "linux")).toBe("Ctrl+Shift+Z");
  expect(acceleratorText("CmdOrCtrl+Shift+Z", "mac")).toBe("⌘⇧Z");
});
