/** What the desktop remembers between starts: the window's place, the theme, the ledgers opened last. A small JSON file. */
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { z } from "zod";

const MAX_RECENT = 10;

const pixels = z.int().min(-100_000).max(100_000);

const desktopState = z.strictObject({
  window: z.strictObject({
    x: pixels.nullable(),
    y: pixels.nullable(),
    width: z.int().min(640).max(20_000),
    height: z.int().min(480).max(20_000),
    isMaximized: z.boolean(),
  }),
  theme: z.enum(["system", "light", "dark"]),
  recent: z.array(z.strictObject({ path: z.string().min(1).max(4096), openedAt: z.int() })).max(MAX_RECENT),
});
export type DesktopState = Readonly<z.infer<typeof desktopState>>;

export const FIRST_STATE: DesktopState = {
  window: { x: null, y: null, width: 1600, height: 1000, isMaximized: false },
  theme: "system",
  recent: [],
};

/** A missing or spoiled file is no reason to stop: the first state then holds. */
export const readState = (path: string): DesktopState => {
  try {
    const parsed = desktopState.safeParse(JSON.parse(readFileSync(path, "utf8")));
    return parsed.success ? parsed.data : FIRST_STATE;
  } catch {
    return FIRST_STATE;
  }
};

/** Writes beside the file and renames, so that a crash leaves the old one. */
export const writeState = (path: string, state: DesktopState): void => {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const beside = `${path}.new`;
  writeFileSync(beside, JSON.stringify(state, null, 2), { mode: 0o600 });
  renameSync(beside, path);
};

/** The state with a ledger at the head of the list. */
export const withRecent = (state: DesktopState, path: string, openedAt: number): DesktopState => ({
  ...state,
  recent: [{ path, openedAt }, ...state.recent.filter((known) => known.path !== path)].slice(0, MAX_RECENT),
});

export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Whether a good part of the window would be on one of the screens; a screen may have been taken away since. */
export const isOnScreen = (window: Rectangle, screens: readonly Rectangle[]): boolean =>
  screens.some((screen) => {
    const wide = Math.min(window.x + window.width, screen.x + screen.width) - Math.max(window.x, screen.x);
    const high = Math.min(window.y + window.height, screen.y + screen.height) - Math.max(window.y, screen.y);
    return wide >= 200 && high >= 100;
  });
