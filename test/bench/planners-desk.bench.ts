/**
 * A planner's desk with much on it: 200 flights and 80 sorties in five years, at 1600×1000 in Chromium. What a frame of a
 * drag costs the page, and how long a letter typed into Find takes until the list below it is on the screen.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { launchChromium, startInBrowser } from "../e2e/harness/browser-start.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";
import { SIZE, atShare, drag } from "./drag.ts";
import { REFERENCE, campaign } from "./reference-campaign.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const FLIGHTS = 200;
const SORTIES = 80;
const FRAME_LIMIT_MS = 16;
const LETTER_LIMIT_MS = 50;
/** Typed letter by letter and rubbed out again: many found, few, none. */
const TYPED = ["packhorse 17", "sortie 4", "qx", "losses"];

/** In the page: from the letter's own event to the first moment after the frame that shows what it found. */
const watchLetters = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const times: number[] = [];
    Object.assign(window, { letterTimes: times });
    document.addEventListener(
      "beforeinput",
      () => {
        const from = performance.now();
        requestAnimationFrame(() => {
          const after = new MessageChannel();
          after.port1.addEventListener("message", () => times.push(performance.now() - from));
          after.port1.start();
          after.port2.postMessage(null);
        });
      },
      true,
    );
  });

const letterTimes = (page: Page): Promise<number[]> =>
  page.evaluate(() => (window as unknown as { letterTimes: number[] }).letterTimes);

const typeAll = async (page: Page): Promise<void> => {
  await page.keyboard.press("Control+f");
  await page.getByRole("searchbox", { name: "Find by name" }).waitFor();
  const frame = (): Promise<unknown> =>
    page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve))));
  for (const word of TYPED) {
    for (const letter of word) {
      await page.keyboard.type(letter);
      await frame();
    }
    for (const _ of word) {
      await page.keyboard.press("Backspace");
      await frame();
    }
  }
  await page.keyboard.press("Escape");
};

export const bench: Bench = {
  name: "planner's desk",
  run: async (): Promise<readonly BenchFigure[]> => {
    const home = mkdtempSync(join(tmpdir(), "coldstock-desk-"));
    const ledger = join(home, "desk.coldstock");
    writeReferenceLedger(ledger, campaign({ ...REFERENCE, flights: FLIGHTS, sorties: SORTIES }));
    const browser = await launchChromium().catch((error: unknown) => {
      throw new BenchUnavailable(`Chromium does not start here: ${String(error)}`);
    });
    try {
      const planner = await startInBrowser(browser, { home, ledger });
      const { page } = planner;
      await planner.resize(SIZE.width, SIZE.height);
      const drags = [
        await drag(page, "Packhorse 100"),
        await drag(page, "Packhorse 100"),
        await drag(page, "Packhorse 100"),
      ];
      await watchLetters(page);
      await typeAll(page);
      await typeAll(page);
      await typeAll(page);
      const letters = await letterTimes(page);
      await planner.close();
      const frames = drags.flatMap((run) => run.frames);
      if (letters.length < 3 * 2 * TYPED.join("").length)
        throw new Error(`only ${letters.length} letters were measured`);
      const plan = `${FLIGHTS} flights, ${SORTIES} sorties`;
      const frameName = `drag frame, ${plan}: the page's own work, median`;
      const letterName = `a letter typed into Find, ${plan}: until shown, median`;
      return [
        { name: frameName, value: median(frames), unit: "ms", limit: FRAME_LIMIT_MS, note: `${frames.length} frames` },
        {
          name: `drag frame, ${plan}: 95th percentile`,
          value: atShare(frames, 0.95),
          unit: "ms",
          limit: FRAME_LIMIT_MS,
          ratioTo: frameName,
          note: `of each drag: ${drags.map((run) => atShare(run.frames, 0.95).toFixed(1)).join(", ")}`,
        },
        {
          name: letterName,
          value: median(letters),
          unit: "ms",
          limit: LETTER_LIMIT_MS,
          note: `${letters.length} letters`,
        },
        {
          name: `a letter typed into Find, ${plan}: 95th percentile`,
          value: atShare(letters, 0.95),
          unit: "ms",
          limit: LETTER_LIMIT_MS,
          ratioTo: letterName,
        },
      ];
    } finally {
      await browser.close();
      rmSync(home, { recursive: true, force: true });
    }
  },
};
