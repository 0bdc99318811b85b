/**
 * One flight dragged to and fro in Chromium, a step a frame, and what it cost: the page's own measure of each frame, and the
 * browser's count of the main thread's processor time, less what the test driver's own two messages a frame cost.
 */
import type { Page } from "@playwright/test";
import { FRAME_MEASURE } from "../../renderer/timeline/drag/measures.ts";
import { middleOf, type Point } from "../e2e/harness/timeline.ts";

export const SIZE = { width: 1600, height: 1000 };
export const STEPS = 240;
const REACH_PIXELS = 120;

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

/** The number that this share of them does not exceed. */
export const atShare = (numbers: readonly number[], share: number): number =>
  numbers.toSorted((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(share * numbers.length))] ?? Number.NaN;

/** Moves the pointer to and fro, a step a frame. */
const sway = async (page: Page, around: Point): Promise<void> => {
  for (let step = 1; step <= STEPS; step++) {
    await page.mouse.move(around.x + REACH_PIXELS * Math.sin((step / STEPS) * 4 * Math.PI), around.y);
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
  }
};

/** The same moves where nothing happens: over the status line. */
export const driverMs = async (page: Page): Promise<number> => {
  const stop = await mainThreadMs(page);
  await sway(page, { x: SIZE.width / 2, y: SIZE.height - 8 });
  return (await stop()) / STEPS;
};

/** One drag of a flight, to and fro, a step a frame. */
export const drag = async (page: Page, flight: string): Promise<{ frames: number[]; wholeMs: number }> => {
  const bar = await middleOf(page, flight);
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
