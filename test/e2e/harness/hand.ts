/** Counts what a person's hand does on the page: presses of the pointer, keys, fields typed into, and the time that it takes. */
import type { Locator, Page } from "@playwright/test";
import type { ActionId } from "../../../app/contract/actions.ts";
import { type HandWork, handSeconds } from "./hand-time.ts";
import type { Planner } from "./planner.ts";

export interface Hand {
  /** Chooses an entry of a menu: two presses, in the page's menus and in the native ones alike. */
  choose(action: ActionId): Promise<void>;
  /** Goes on by the Tab key to a field, and types over what stands in it. Throws when the key does not lead there. */
  type(field: Locator, text: string): Promise<void>;
  /** So far; the time by the model of hand-time.ts, s. */
  counted(): Promise<HandWork & { readonly seconds: number }>;
}

interface Counting {
  handOfTheTest: {
    keys: number;
    clicks: number;
    homings: number;
    fields: number;
    last: EventTarget | null;
    device: "keys" | "pointer";
    now(device: "keys" | "pointer"): void;
  };
}

/** Of the native menu: the press that opens it and the press of the entry. */
const NATIVE_PRESSES = 2;
const MAX_TABS = 40;

/** From now on; the page must not be loaded anew meanwhile. */
export const countHand = async (planner: Planner): Promise<Hand> => {
  const { page } = planner;
  await startCounting(page);
  return {
    choose: async (action) => {
      await planner.choose(action);
      if (planner.host === "browser") return;
      // The native menu's presses do not reach the page.
      await page.evaluate((presses) => {
        const { handOfTheTest: hand } = window as unknown as Counting;
        hand.now("pointer");
        hand.clicks += presses;
      }, NATIVE_PRESSES);
    },
    type: async (field, text) => {
      const isThere = (): Promise<boolean> => field.evaluate((node) => node === document.activeElement);
      for (let tabs = 0; !(await isThere()); tabs++) {
        if (tabs === MAX_TABS) throw new Error(`the Tab key does not lead to ${String(field)}`);
        await page.keyboard.press("Tab");
      }
      await page.keyboard.type(text);
    },
    counted: async () => {
      const seen = await page.evaluate(() => {
        const { keys, clicks, homings, fields } = (window as unknown as Counting).handOfTheTest;
        return { keys, clicks, homings, fields };
      });
      return { ...seen, seconds: handSeconds(seen) };
    },
  };
};

const startCounting = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const hand: Counting["handOfTheTest"] = {
      keys: 0,
      clicks: 0,
      homings: 0,
      fields: 0,
      last: null,
      device: "pointer",
      now: (device) => {
        if (hand.device !== device) hand.homings++;
        hand.device = device;
      },
    };
    Object.assign(window, { handOfTheTest: hand });
    // Before anything of the page can keep the event from going on.
    window.addEventListener(
      "pointerdown",
      (event) => {
        if (!event.isTrusted) return;
        hand.now("pointer");
        hand.clicks++;
      },
      true,
    );
    window.addEventListener(
      "keydown",
      (event) => {
        if (!event.isTrusted) return;
        hand.now("keys");
        hand.keys++;
      },
      true,
    );
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
