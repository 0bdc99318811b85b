/** The native menu is the table of actions, no more and no less. */
import type { MenuItemConstructorOptions } from "electron";
import { describe, expect, it } from "vitest";
import { actions, menus } from "../../../app/contract/actions.ts";
import { menuTemplate } from "../../../main/desktop/menu.ts";

const ran: string[] = [];
const opened: string[] = [];
const template = (more: Partial<Parameters<typeof menuTemplate>[0]> = {}) =>
  menuTemplate({
    isMac: false,
    states: new Map(),
    recent: [],
    run: (id) => ran.push(id),
    openRecent: (path) => opened.push(path),
    ...more,
  });

const itemsOf = (menu: MenuItemConstructorOptions): MenuItemConstructorOptions[] =>
  menu.submenu as MenuItemConstructorOptions[];
const all = (from = template()) => from.flatMap(itemsOf).filter((item) => item.type !== "separator");
const find = (id: string, from = template()) => all(from).find((item) => item.id === id)!;
const click = (item: MenuItemConstructorOptions): void => (item.click as (() => void) | undefined)?.();

describe("the table", () => {
  it("has no id twice and no keys twice", () => {
    const ids = actions.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const keys = actions.flatMap(({ accelerator }) => accelerator ?? []);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it("uses every menu", () => expect(new Set(actions.map(({ menu }) => menu))).toEqual(new Set(menus)));
});

describe("the menu", () => {
  it("shows every action once, in its menu, in order", () => {
    expect(template().map(({ label }) => label)).toEqual([...menus]);
    expect(all().map(({ id }) => id)).toEqual(
      menus.flatMap((menu) => actions.filter((a) => a.menu === menu).map((a) => a.id)),
    );
  });

  it("hands page actions to the page and leaves their keys to it", () => {
    for (const action of actions.filter(({ by }) => by === "page")) {
      const item = find(action.id);
      expect(item.registerAccelerator).toBe(false);
      click(item);
      expect(ran.at(-1)).toBe(action.id);
    }
  });

  it("has Electron do what is the window's own", () => {
    for (const action of actions.filter(({ by }) => by === "desktop"))
      expect(find(action.id).role ?? find(action.id).submenu).toBeTruthy();
  });

  it("follows the page: enabled, on, label", () => {
    const states = new Map([
      ["edit.undo", { id: "edit.undo", isEnabled: false, isOn: false, label: "Undo Move Packhorse 7" } as const],
      ["view.table", { id: "view.table", isEnabled: true, isOn: true, label: null } as const],
    ]);
    expect(find("edit.undo", template({ states }))).toMatchObject({ label: "Undo Move Packhorse 7", enabled: false });
    expect(find("view.table", template({ states }))).toMatchObject({ checked: true, type: "checkbox" });
  });

  it("lists recent ledgers by name and opens the one that is chosen", () => {
    const recent = [{ name: "a.coldstock", path: "/x/a.coldstock" }];
    const [item] = find("file.recent", template({ recent })).submenu as MenuItemConstructorOptions[];
    expect(item).toMatchObject({ label: "a.coldstock", toolTip: "/x/a.coldstock" });
    click(item!);
    expect(opened).toEqual(["/x/a.coldstock"]);
    expect(find("file.recent").submenu).toEqual([{ label: "None yet", enabled: false }]);
  });

  it("has the application menu on a Mac", () => expect(template({ isMac: true })[0]).toEqual({ role: "appMenu" }));
});
