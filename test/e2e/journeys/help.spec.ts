/** Help where the work is: the page of the view, from it to a method, a search, the page on paper; the tour offered once. */
import { faultsOf } from "../harness/faults.ts";
import { textOf } from "../harness/pdf-text.ts";
import { expect, test } from "../harness/test.ts";

test("a view explains itself, its numbers lead to their methods, and a page prints", async ({
  planner,
  start,
  host,
}) => {
  const { page } = planner;
  const dialog = page.getByRole("dialog", { name: "Handbook" });
  await expect(page.getByRole("grid", { name: "Timeline" })).toBeVisible();

  // Offered at the first start (which on the desktop may be one that was given up, and made anew); left at its second
  // step, which shows another view.
  if (host === "browser") await page.getByRole("button", { name: "First tour", exact: true }).click();
  else await planner.choose("help.tour");
  const tour = page.getByRole("region", { name: "First tour" });
  await expect(tour).toContainText("Step 1 of 5");
  await tour.getByRole("button", { name: "Next step" }).click();
  await expect(tour).toContainText("Step 2 of 5");
  await expect(page.getByRole("heading", { level: 1, name: "Supply" })).toBeVisible();
  await tour.getByRole("button", { name: "Leave the tour" }).click();
  await expect(tour).toBeHidden();

  await page.getByRole("button", { name: "Help on Supply" }).click();
  const sheet = dialog.getByRole("article");
  await expect(sheet.getByRole("heading", { name: "Supply", exact: true })).toBeVisible();
  await sheet.getByRole("button", { name: "Status and margin" }).click();
  await expect(sheet.getByRole("heading", { name: "Status and margin" })).toBeFocused();
  await dialog.getByRole("searchbox", { name: "Find in the handbook" }).fill("reduced χ²");
  await dialog.getByRole("button", { name: "Methods: Fitted loss rate" }).click();
  await expect(sheet.getByRole("heading", { name: "Fitted loss rate" })).toBeFocused();
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await faultsOf(page, colorScheme, ".dialog")).toEqual([]);
  }
  const paper = await planner.printed(() =>
    dialog.getByRole("button", { name: "Print this page or save it as PDF…" }).click(),
  );
  const text = await textOf(paper);
  // From the first method to the last one, whole pages further on.
  expect(text).toMatch(/Ghare\s*and\s*Schrader/);
  expect(text).toContain("Electrolysis parts water");
  expect(text).not.toContain("Close");
  await page.keyboard.press("Escape");
  await expect(dialog).toBeHidden();

  // By its key, with another view shown; and the tour is not offered a second time.
  await planner.choose("view.losses");
  await page.keyboard.press("F1");
  await expect(sheet.getByRole("heading", { name: "Losses", exact: true })).toBeVisible();
  if (host === "browser") return;
  await planner.close();
  const again = await start();
  await expect(again.page.getByRole("grid", { name: "Timeline" })).toBeVisible();
  await expect(again.page.getByRole("button", { name: "First tour", exact: true })).toBeHidden();
});
