/** The one window: made from what was remembered, shown when painted. */
import { BrowserWindow, nativeTheme, screen } from "electron";
import { type DesktopState, isOnScreen } from "./desktop-state.ts";
import { webPreferences } from "./lock-down.ts";
import { PAGE_ADDRESS } from "./page-address.ts";

/** What the window shows before the page has painted: the theme's ground. */
const ground = (): string => (nativeTheme.shouldUseDarkColors ? "#151a22" : "#f2efe9");

export const openWindow = (state: DesktopState["window"], preload: string): BrowserWindow => {
  const { x, y, width, height } = state;
  const isPlaceKept =
    x !== null &&
    y !== null &&
    isOnScreen(
      { x, y, width, height },
      screen.getAllDisplays().map((display) => display.workArea),
    );
  const window = new BrowserWindow({
    title: "Coldstock",
    width,
    height,
    ...(isPlaceKept ? { x, y } : {}),
    minWidth: 640,
    minHeight: 480,
    show: false,
    backgroundColor: ground(),
    webPreferences: webPreferences(preload),
  });
  window.once("ready-to-show", () => {
    if (state.isMaximized) window.maximize();
    window.show();
  });
  void window.loadURL(PAGE_ADDRESS);
  return window;
};

/** Where the window is now, to be remembered. */
export const windowPlace = (window: BrowserWindow): DesktopState["window"] => {
  const { x, y, width, height } = window.getNormalBounds();
  return { x, y, width, height, isMaximized: window.isMaximized() };
};
