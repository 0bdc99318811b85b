/** The timeline for those who drag on it: where things are, how many pixels a day has, and when it was painted. */
import type { Locator, Page } from "@playwright/test";

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A flight, sortie or level by the beginning of what is said of it. */
export const itemOf = (page: Page, name: string): Locator =>
  page.getByRole("grid", { name: "Timeline" }).getByRole("gridcell", { name: new RegExp(`^${name},? `) });

/** The middle of an item's bar. */
export const middleOf = async (page: Page, name: string): Promise<Point> => {
  const box = await itemOf(page, name).boundingBox();
  if (box === null) throw new Error(`${name} is not on the timeline`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

const INSTANT = /(?:departs|loads) (\d{4}-\d\d-\d\d) (\d\d:\d\d)/;

/** When an item begins, as its words say. */
export const beginningOf = async (page: Page, name: string): Promise<number> => {
  const words = (await itemOf(page, name).getAttribute("aria-label")) ?? "";
  const found = INSTANT.exec(words);
  if (found === null) throw new Error(`no instant in "${words}"`);
  return Date.parse(`${found[1]}T${found[2]}Z`);
};

const DAY_MS = 86_400_000;

/** How many pixels a day has, from the left edges of two items. */
export const pixelsPerDay = async (page: Page, early: string, late: string): Promise<number> => {
  const edge = async (name: string): Promise<number> => (await itemOf(page, name).boundingBox())?.x ?? Number.NaN;
  const days = ((await beginningOf(page, late)) - (await beginningOf(page, early))) / DAY_MS;
  return ((await edge(late)) - (await edge(early))) / days;
};

/** Drags an item sideways with several moves, as a hand does; `beforeDrop` looks at the page while it is held. */
export const dragBy = async (
  page: Page,
  name: string,
  pixels: number,
  beforeDrop: () => Promise<void> = async () => {},
): Promise<void> => {
  const from = await middleOf(page, name);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + pixels / 2, from.y, { steps: 5 });
  await page.mouse.move(from.x + pixels, from.y, { steps: 5 });
  await beforeDrop();
  await page.mouse.up();
};

/** Waits for the first frame that shows the timeline's items; answers its instant by the machine's clock, ms. */
export const timelinePainted = async (page: Page): Promise<number> => {
  const painted = await page.waitForFunction(
    () => document.querySelector("[role=grid] [role=gridcell]") !== null && performance.timeOrigin + performance.now(),
    undefined,
    { polling: "raf" },
  );
  return Number(await painted.jsonValue());
};

/** "4 supplied 1 short": how the sorties stand. */
export const standing = (page: Page): Locator => page.getByLabel("Verdict, and sorties by supply status");
