/** A state is kept by name, the plan changes, what going back would change is looked at, and gone back to; and forward again. */
import { join } from "node:path";
import { root } from "../equipment/project.ts";
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { beginningOf, dragBy, itemOf, pixelsPerDay, standing } from "../harness/timeline.ts";

const screens = join(root, "test/e2e/screens");

test("what a replan changed is shown and gone back from, and forward again", async ({ planner, host }) => {
  const { page } = planner;
  await expect(standing(page)).toHaveText(/4\s*supplied\s*1\s*short/);
  const before = await beginningOf(page, "Drover 3");

  await planner.choose("file.copies");
  const dialog = page.getByRole("dialog", { name: "Kept copies" });
  await dialog.getByRole("textbox", { name: "Name of the state as it is now" }).fill("Before the replan");
  await dialog.getByRole("button", { name: "Keep this state" }).click();
  const copy = dialog.getByRole("radio", { name: /^Before the replan/ });
  await expect(copy).toHaveCount(1);
  await dialog.getByText("Before the replan", { exact: true }).click();
  await expect(dialog.getByText("going back would change nothing", { exact: false })).toBeVisible();
  await expect(dialog.getByRole("button", { name: "Go back to this copy" })).toBeDisabled();
  await page.keyboard.press("Escape");
  await expect(dialog).toBeHidden();

  await dragBy(page, "Drover 3", 60 * (await pixelsPerDay(page, "Drover 3", "Drover 6")));
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/short by/);
  const moved = await beginningOf(page, "Drover 3");

  await planner.choose("file.copies");
  await dialog.getByText("Before the replan", { exact: true }).click();
  const look = dialog.getByRole("region", { name: "What going back would change" });
  await expect(look).toContainText("1 edit was made since");
  await expect(look).toContainText("1 flight, 0 sorties would be other");
  await expect(look).toContainText(/Drover 3 departs .* instead of .* earlier/);
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    for (const [width, height] of [
      [1024, 768],
      [1280, 800],
    ] as const) {
      await planner.resize(width, height);
      await page.screenshot({ path: join(screens, `${host}-copies-${colorScheme}-${width}x${height}.png`) });
    }
    expect(await faultsOf(page, colorScheme)).toEqual([]);
  }
  await planner.resize(1280, 800);

  await dialog.getByRole("button", { name: "Go back to this copy" }).click();
  await expect(dialog).toBeHidden();
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/, supplied,/);
  expect(await beginningOf(page, "Drover 3")).toBe(before);

  await planner.choose("file.copies");
  await dialog.getByText("Before going back", { exact: false }).first().click();
  await expect(look).toContainText("1 flight, 0 sorties would be other");
  await dialog.getByRole("button", { name: "Go back to this copy" }).click();
  await expect(dialog).toBeHidden();
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/short by/);
  expect(await beginningOf(page, "Drover 3")).toBe(moved);
});
