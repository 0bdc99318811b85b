/**
 * What one frame of a drag costs the page's main thread: the reference campaign at 1600×1000 in Chromium, one flight
 * dragged to and fro. The page measures its own work of each frame (forecast, check, redraw); beside it the browser's own
 * count of the main thread's processor time over the whole drag, style, layout, raster and input included, less what the
 * test driver's own two messages a frame cost (measured by the same moves beside the chart).
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { FRAME_MEASURE } from "../../renderer/timeline/drag/measures.ts";
import { launchChromium, startInBrowser } from "../e2e/harness/browser-start.ts";
import { middleOf, type Point } from "../e2e/harness/timeline.ts";
import { type Bench, type BenchFigure, BenchUnavailable, median } from "./bench.ts";
import { writeReferenceLedger } from "./reference-ledger.ts";

const SIZE = { width: 1600, height: 1000 };
const STEPS = 240;
const REACH_PIXELS = 120;
const LIMIT_MS = 8;

const mainThreadMs = async (page: Page): Promise<() => Promise<number>> => {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const read = async (): Promise<number> => {
    const { metrics } = await session.send("Performance.getMetrics");
    return (metrics.find((metric) => metric.name === "TaskDuration")?.value ?? 0) * 1000;
  };
  const from = await read();
  return async () => (await read()) - from;
};

const frameTimes = (page: Page): Promise<number[]> =>
  page.evaluate((name) => performance.getEntriesByName(name, "measure").map((entry) => entry.duration), FRAME_MEASURE);

const atShare = (numbers: readonly number[], share: number): number =>
  numbers.toSorted((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(share * numbers.length))] ?? Number.NaN;

/** Moves the pointer to and fro, a step a frame. */
const sway = async (page: Page, around: Point): Promise<void> => {
  for (let step = 1; step <= STEPS; step++) {
    await page.mouse.move(around.x + REACH_PIXELS * Math.sin((step / STEPS) * 4 * Math.PI), around.y);
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
  }
};

/** The same moves where nothing happens: over the status line. */
const driverMs = async (page: Page): Promise<number> => {
  const stop = await mainThreadMs(page);
  await sway(page, { x: SIZE.width / 2, y: SIZE.height - 8 });
  return (await stop()) / STEPS;
};

/** One drag of a flight in the middle of the screen, to and fro, a step a frame. */
const drag = async (page: Page): Promise<{ frames: number[]; wholeMs: number }> => {
  const bar = await middleOf(page, "Packhorse 60");
  await page.mouse.move(bar.x, bar.y);
  await page.mouse.down();
  const stop = await mainThreadMs(page);
  await sway(page, bar);
  const wholeMs = await stop();
  const frames = await frameTimes(page);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  return { frames, wholeMs };
};

export const bench: Bench = {
  name: "drag frame",
  run: async (): Promise<readonly BenchFigure[]> => {
    const home = mkdtempSync(join(tmpdir(), "coldstock-drag-"));
    const ledger = join(home, "reference.coldstock");
    writeReferenceLedger(ledger);
    const browser = await launchChromium().catch((error: unknown) => {
      throw new BenchUnavailable(`Chromium does not start here: ${String(error)}`);
    });
    try {
      const planner = await startInBrowser(browser, { home, ledger });
      await planner.resize(SIZE.width, SIZE.height);
      const driver = median([await driverMs(planner.page), await driverMs(planner.page), await driverMs(planner.page)]);
      const runs = [await drag(planner.page), await drag(planner.page), await drag(planner.page)];
      await planner.close();
      const frames = runs.flatMap((run) => run.frames);
      if (frames.length < STEPS) throw new Error(`only ${frames.length} frames were measured`);
      const note = `${frames.length} frames, software rendering`;
      const name = "drag frame, the page's own work";
      return [
        { name, value: median(frames), unit: "ms", limit: LIMIT_MS, note },
        {
          name: "drag frame, 95th percentile",
          value: atShare(frames, 0.95),
          unit: "ms",
          limit: LIMIT_MS,
          ratioTo: name,
        },
        {
          name: "drag frame, all main-thread processor time",
          value: median(runs.map((run) => run.wholeMs / run.frames.length)) - driver,
          unit: "ms",
          limit: LIMIT_MS,
          ratioTo: name,
          note: `the driver's own ${driver.toFixed(2)} ms a frame taken off`,
        },
      ];
    } finally {
      await browser.close();
      rmSync(home, { recursive: true, force: true });
    }
  },
};
