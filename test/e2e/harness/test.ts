/** The `test` of every journey: a fresh home folder, and the program started in the host of the running project. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, test as base } from "@playwright/test";
import { type Screen, openScreen } from "../equipment/screen.ts";
import { launchChromium, startInBrowser } from "./browser-start.ts";
import { startOnDesktop } from "./desktop-start.ts";
import type { HostOption, Planner } from "./planner.ts";

interface Workshop {
  readonly home: string;
  /** Starts the program over the home folder; it is closed at the end of the test if the test did not close it. */
  readonly start: (ledger?: string) => Promise<Planner>;
  /** The program, started with nothing given. */
  readonly planner: Planner;
}

interface Stage {
  /** Chromium, for journeys in the browser host. */
  readonly ourBrowser: () => Promise<Browser>;
  readonly ourScreen: () => Promise<Screen>;
}

/** Makes it when it is first asked for. */
const lazily = <T>(make: () => Promise<T>): { get: () => Promise<T>; made: () => Promise<T> | null } => {
  let made: Promise<T> | null = null;
  return { get: () => (made ??= make()), made: () => made };
};

export const test = base.extend<HostOption & Workshop, Stage>({
  host: ["browser", { option: true }],

  ourBrowser: [
    // eslint-disable-next-line no-empty-pattern -- Playwright reads a fixture's needs from this pattern
    async ({}, use) => {
      const browser = lazily(launchChromium);
      await use(browser.get);
      await (await browser.made())?.close();
    },
    { scope: "worker" },
  ],

  ourScreen: [
    // eslint-disable-next-line no-empty-pattern -- as above
    async ({}, use) => {
      const screen = lazily(openScreen);
      await use(screen.get);
      (await screen.made())?.close();
    },
    { scope: "worker" },
  ],

  // eslint-disable-next-line no-empty-pattern -- as above
  home: async ({}, use) => {
    const home = mkdtempSync(join(tmpdir(), "coldstock-home-"));
    await use(home);
    rmSync(home, { recursive: true, force: true });
  },

  start: async ({ host, home, ourBrowser, ourScreen }, use) => {
    const started: Planner[] = [];
    await use(async (ledger) => {
      const start = { home, ...(ledger === undefined ? {} : { ledger }) };
      const planner =
        host === "browser"
          ? await startInBrowser(await ourBrowser(), start)
          : await startOnDesktop(start, (await ourScreen()).display);
      let isClosed = false;
      const once: Planner = {
        ...planner,
        close: async () => {
          if (isClosed) return;
          isClosed = true;
          await planner.close();
        },
      };
      started.push(once);
      return once;
    });
    for (const planner of started) await planner.close();
  },

  planner: async ({ start }, use) => {
    await use(await start());
  },
});

export { expect } from "@playwright/test";
