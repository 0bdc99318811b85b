/** Every view, light, dark and in forced colours, in light at two sizes: no accessibility fault, nothing on the console, and a picture of it. */
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { root } from "../equipment/project.ts";
import { faultsOf, wear } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { everyView } from "./every-view.ts";

const screens = join(root, "test/e2e/screens");
const sizes = [
  { width: 1280, height: 800 },
  { width: 1600, height: 1000 },
];

/** The page lays its canvases out anew a frame after it was resized, and paints with the next. */
const settled = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    await document.fonts.ready;
    for (let frame = 0; frame < 4; frame++) await new Promise((resolve) => requestAnimationFrame(resolve));
  });

/** The controls on screen that cannot be operated and do not say why. */
const mute = (page: Page): Promise<readonly string[]> =>
  page
    .locator(":is(button, input, select, textarea):is(:disabled, [aria-disabled=true]):visible")
    .evaluateAll((all) =>
      all.filter((each) => each.closest("[title]:not([title=''])") === null).map((each) => each.outerHTML),
    );

test("every view is there, speaks to assistive programs, and is kept as a picture", async ({ planner, host }) => {
  // Every view twice, each searched for faults: more than one journey's time on a busy machine.
  test.slow();
  const { page } = planner;
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || /Content Security Policy/i.test(message.text())) complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    for (const view of everyView) {
      await planner.choose(view.action);
      await expect(page.getByRole("heading", { level: 1, name: view.title })).toBeVisible();
      // The large size in light alone, and in one host: what differs in the dark are colours, and between hosts the frame.
      const shown = colorScheme === "light" && host === "browser" ? sizes : sizes.slice(0, 1);
      for (const { width, height } of shown) {
        await planner.resize(width, height);
        await settled(page);
        const picture = `${host}-${view.picture}-${colorScheme}-${width}x${height}.png`;
        await page.screenshot({ path: join(screens, picture) });
      }
      expect.soft(await faultsOf(page, colorScheme), `${view.title}, ${colorScheme}`).toEqual([]);
      // Forced colours are of the page, not of what holds it: one host shows them.
      if (colorScheme === "light" && host === "browser") {
        await wear(page, "forced colours");
        expect.soft(await faultsOf(page, "forced colours"), `${view.title}, forced colours`).toEqual([]);
        await wear(page, "light");
      }
      if (colorScheme === "light") expect.soft(await mute(page), view.title).toEqual([]);
    }
  }
  expect(complaints).toEqual([]);
});
