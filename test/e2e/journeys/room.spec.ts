/** Room for the picture: the inspector comes and goes, is drawn to size, and nothing is out of sight without a sign. */
import type { Page } from "@playwright/test";
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { itemOf, standing } from "../harness/timeline.ts";

const inspector = (page: Page) => page.getByRole("complementary", { name: "Inspector" });

/** Headings of the table of sorties that no eye sees. */
const unseenHeadings = (page: Page): Promise<readonly string[]> =>
  page
    .locator(".data-table-scroll", { has: page.getByRole("columnheader", { name: "Hinges on" }) })
    .first()
    .evaluate((element) => {
      const box = element.getBoundingClientRect();
      return [...element.querySelectorAll<HTMLElement>("thead th")]
        .filter((heading) => heading.getBoundingClientRect().right > box.right + 12)
        .map((heading) => heading.innerText);
    });

test("the inspector comes with a selection, is drawn wider, and folds away", async ({ planner }) => {
  test.slow();
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  await expect(inspector(page)).toBeHidden();
  const wide = (await page.getByRole("main").boundingBox())?.width ?? 0;

  await planner.choose("view.supply");
  await page.getByRole("rowheader", { name: "Sortie 5" }).first().click();
  await expect(inspector(page)).toContainText("Sortie 5");
  const edge = page.getByRole("separator", { name: "Width of the inspector" });
  const before = Number(await edge.getAttribute("aria-valuenow"));
  const box = await edge.boundingBox();
  if (box === null) throw new Error("the inspector has no edge");
  await page.mouse.move(box.x + 6, 400);
  await page.mouse.down();
  await page.mouse.move(box.x - 54, 400, { steps: 4 });
  await page.mouse.up();
  await expect(edge).toHaveAttribute("aria-valuenow", String(before + 60));
  await edge.press("ArrowRight");
  await expect(edge).toHaveAttribute("aria-valuenow", String(before + 44));
  expect(await faultsOf(page, "light")).toEqual([]);

  // Put away by its command, it is back with the next thing selected.
  await planner.choose("view.inspector");
  await expect(inspector(page)).toBeHidden();
  await page.getByRole("rowheader", { name: "Sortie 4" }).first().click();
  await expect(inspector(page)).toContainText("Sortie 4");
  await inspector(page).getByRole("button", { name: "Clear selection" }).click();
  await expect(inspector(page)).toBeHidden();
  expect((await page.getByRole("main").boundingBox())?.width).toBe(wide);
});

test("a loss period is pressed in a place of 24 pixels, however short it is drawn", async ({ planner }) => {
  const { page } = planner;
  await planner.choose("view.depots");
  const pieces = page.locator(".period-reach");
  await expect(pieces.first()).toBeVisible();
  const widths = await pieces.evaluateAll((all) =>
    all.map((piece) => ({
      reach: piece.getBoundingClientRect().width,
      drawn: piece.firstElementChild?.getBoundingClientRect().width ?? 0,
    })),
  );
  // WCAG 2.2, 2.5.8: 24 CSS pixels; what a browser rounds is let pass.
  expect(Math.min(...widths.map(({ reach }) => reach))).toBeGreaterThan(23.9);
  const short = pieces.nth(widths.findIndex(({ drawn }) => drawn > 0 && drawn < 20));
  // At its very edge, beside what is drawn.
  await short.click({ position: { x: 1, y: 12 } });
  await expect(short).toHaveAttribute("aria-pressed", "true");
  await expect(inspector(page)).toContainText("outage");
});

test("no column and no flight is out of sight without a sign, on small screens and enlarged", async ({ planner }) => {
  test.slow();
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  for (const [width, height] of [
    [1280, 800],
    [1024, 768],
  ] as const) {
    await planner.resize(width, height);
    await planner.choose("view.supply");
    await page.getByRole("button", { name: "Drover 4" }).first().waitFor();
    const sign = page.getByRole("button", { name: /more columns? at the right/ });
    if (width === 1280) await expect.poll(() => unseenHeadings(page)).toEqual([]);
    await page.getByRole("rowheader", { name: "Sortie 5" }).first().click();
    await expect(inspector(page)).toBeVisible();
    await expect.poll(async () => (await unseenHeadings(page)).length).toBeGreaterThan(0);
    await expect(sign.first()).toBeVisible();
    // Followed to the end, the sign brings every column in and goes.
    await expect(async () => {
      // It may go while it is reached for, as the columns of the press before come in: then there is nothing to press.
      if (await sign.first().isVisible()) await sign.first().click({ timeout: 1000 });
      await expect(sign).toHaveCount(0, { timeout: 500 });
    }).toPass();
    await expect(page.getByRole("columnheader", { name: "Hinges on" })).toBeInViewport();
    await inspector(page).getByRole("button", { name: "Clear selection" }).click();
    await expect(inspector(page)).toBeHidden();
  }
  await planner.enlarge();
  await planner.choose("view.timeline");
  // Nobody scrolls: the sorties and a level are in sight together.
  await expect(itemOf(page, "Sortie 2")).toBeInViewport({ ratio: 0.9 });
  await expect(itemOf(page, "Hydrogen")).toBeInViewport({ ratio: 0.9 });
  const height = async () => (await page.locator(".timeline-scroller").boundingBox())?.height ?? 0;
  await expect.poll(height).toBeGreaterThan(120);
});
