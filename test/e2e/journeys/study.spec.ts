/** A study in the window: two inputs run on a map, stopped nowhere, a point pressed and opened as a plan case. */
import { expect, test } from "../harness/test.ts";

test("the map of two inputs is run, a point pressed, and opened as a plan case beside the one it came from @page", async ({
  planner,
}) => {
  const { page } = planner;
  await planner.resize(1280, 800);
  await planner.choose("view.study");
  await expect(page.getByText(/^441 points: /)).toBeVisible();
  await page.getByRole("button", { name: "Run study" }).click();
  await expect(page.getByText(/The plan holds at \d+ of 441 points shown/)).toBeAttached();
  await page.locator(".plot-pressed").click({ position: { x: 300, y: 60 } });
  const point = page.getByRole("region", { name: "Point" });
  await expect(point).toContainText(/Loss factor of every depot tank 0\.75/);
  await point.getByRole("button", { name: "Open as a plan case" }).click();
  await expect(page.getByText(/is a plan case now, beside Baseline/)).toBeVisible();
});
