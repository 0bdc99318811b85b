/** Ctrl+F: a few letters, and one is there: a flight out of sight, a view, a command, another plan case. */
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

test("a flight is found by a part of its name, a command by its word, a case by its name", async ({ planner }) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  const line = page.getByRole("searchbox", { name: "Find by name" });
  const found = page.getByRole("listbox", { name: "Found" });

  await page.keyboard.press("Control+f");
  await expect(line).toBeFocused();
  await page.keyboard.type("drover 3");
  await expect(found.getByRole("option").first()).toContainText("Drover 3");
  expect(await faultsOf(page, "light")).toEqual([]);
  await page.screenshot({ path: `out/find-${test.info().project.name}.png` });
  await page.keyboard.press("Enter");
  await expect(page.getByRole("dialog")).toBeHidden();
  await expect(page.getByRole("complementary")).toContainText("Drover 3");

  await page.keyboard.press("Control+f");
  await page.keyboard.type("losses");
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toContainText("Losses");

  await page.keyboard.press("Control+f");
  await page.keyboard.type("add sortie");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("dialog", { name: /sortie/i })).toBeVisible();
  await page.keyboard.press("Escape");

  await page.keyboard.press("Control+f");
  await page.keyboard.type("no such thing anywhere");
  await expect(page.getByText("Nothing has this name.")).toBeVisible();
});
