/** Draws the native menu from the one list of actions. */
import type { MenuItemConstructorOptions } from "electron";
import { type Action, type ActionId, actions, type ActionState, menus } from "../../app/contract/actions.ts";

export interface MenuChoices {
  readonly isMac: boolean;
  readonly states: ReadonlyMap<string, ActionState>;
  /** Names and paths of ledgers opened last. */
  readonly recent: readonly { readonly name: string; readonly path: string }[];
  run(id: ActionId): void;
  openRecent(path: string): void;
}

/** What Electron itself does for the actions that are the window's own. */
const roles: Readonly<Record<string, NonNullable<MenuItemConstructorOptions["role"]>>> = {
  "file.quit": "quit",
  "edit.cut": "cut",
  "edit.copy": "copy",
  "edit.paste": "paste",
  "edit.selectAll": "selectAll",
  "view.larger": "zoomIn",
  "view.smaller": "zoomOut",
  "view.actualSize": "resetZoom",
  "view.fullScreen": "togglefullscreen",
};

const forms: Readonly<Record<Action["form"], NonNullable<MenuItemConstructorOptions["type"]>>> = {
  item: "normal",
  check: "checkbox",
  choice: "radio",
  submenu: "submenu",
};

const recentMenu = (choices: MenuChoices): MenuItemConstructorOptions[] =>
  choices.recent.length === 0
    ? [{ label: "None yet", enabled: false }]
    : choices.recent.map(({ name, path }) => ({ label: name, toolTip: path, click: () => choices.openRecent(path) }));

const itemOf = (action: (typeof actions)[number], choices: MenuChoices): MenuItemConstructorOptions => {
  const state = choices.states.get(action.id);
  const base: MenuItemConstructorOptions = { id: action.id, label: state?.label ?? action.label };
  if (action.accelerator !== null) base.accelerator = action.accelerator;
  const role = roles[action.id];
  if (role !== undefined) return { ...base, role };
  if (action.form === "submenu") return { ...base, submenu: recentMenu(choices) };
  return {
    ...base,
    type: forms[action.form],
    enabled: state?.isEnabled ?? true,
    checked: state?.isOn ?? false,
    // The page listens for the keys itself, in every host; the menu shows them.
    registerAccelerator: false,
    click: () => choices.run(action.id),
  };
};

export const menuTemplate = (choices: MenuChoices): MenuItemConstructorOptions[] => [
  ...(choices.isMac ? [{ role: "appMenu" as const }] : []),
  ...menus.map((menu) => ({
    label: menu,
    submenu: actions
      .filter((action) => action.menu === menu)
      .flatMap((action) => [...(action.startsGroup ? [{ type: "separator" as const }] : []), itemOf(action, choices)]),
  })),
];
