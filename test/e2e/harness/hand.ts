/** Counts what a person's hand does on the page: presses of the pointer, and fields typed into. */
import type { Page } from "@playwright/test";
import type { ActionId } from "../../../app/contract/actions.ts";
import type { Planner } from "./planner.ts";

export interface Hand {
  /** Chooses an entry of a menu: two presses, in the page's menus and in the native ones alike. */
  choose(action: ActionId): Promise<void>;
  /** So far. */
  counted(): Promise<{ readonly clicks: number; readonly fields: number }>;
}

interface Counting {
  handOfTheTest: { clicks: number; fields: number; last: EventTarget | null };
}

/** From now on; the page must not be loaded anew meanwhile. */
export const countHand = async (planner: Planner): Promise<Hand> => {
  const { page } = planner;
  await startCounting(page);
  let native = 0;
  return {
    choose: async (action) => {
      await planner.choose(action);
      // The native menu's presses do not reach the page.
      if (planner.host === "desktop") native += 2;
    },
    counted: async () => {
      const seen = await page.evaluate(() => {
        const { clicks, fields } = (window as unknown as Counting).handOfTheTest;
        return { clicks, fields };
      });
      return { ...seen, clicks: seen.clicks + native };
    },
  };
};

const startCounting = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const hand: Counting["handOfTheTest"] = { clicks: 0, fields: 0, last: null };
    Object.assign(window, { handOfTheTest: hand });
    // Before anything of the page can keep the event from going on.
    window.addEventListener("pointerdown", (event) => event.isTrusted && hand.clicks++, true);
    window.addEventListener(
      "input",
      ({ target }) => {
        if (target === hand.last) return;
        hand.last = target;
        hand.fields++;
      },
      true,
    );
  });
