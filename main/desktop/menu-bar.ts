/** The menu bar in force: drawn anew when an action's state or the list of recent ledgers changed. */
import { basename } from "node:path";
import { Menu } from "electron";
import type { ActionId, ActionState } from "../../app/contract/actions.ts";
import { menuTemplate } from "./menu.ts";

export interface MenuBar {
  showActions(states: readonly ActionState[]): void;
  showRecent(paths: readonly string[]): void;
}

export const menuBar = (run: (id: ActionId) => void, openRecent: (path: string) => void): MenuBar => {
  let states: readonly ActionState[] = [];
  let recent: readonly string[] = [];
  let drawn = "";
  const draw = (): void => {
    const now = JSON.stringify([states, recent]);
    if (now === drawn) return;
    drawn = now;
    Menu.setApplicationMenu(
      Menu.buildFromTemplate(
        menuTemplate({
          isMac: process.platform === "darwin",
          states: new Map(states.map((state) => [state.id, state])),
          recent: recent.map((path) => ({ name: basename(path), path })),
          run,
          openRecent,
        }),
      ),
    );
  };
  return {
    showActions: (next) => {
      states = next;
      draw();
    },
    showRecent: (paths) => {
      recent = paths;
      draw();
    },
  };
};
