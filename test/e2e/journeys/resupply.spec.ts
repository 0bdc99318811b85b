/** The flights that keep the lander flying: asked, found with proof, compared, taken as a case; stopping; what cannot be held. */
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "@playwright/test";
import { root } from "../equipment/project.ts";
import { expect, test } from "../harness/test.ts";

const screens = join(root, "test/e2e/screens");

const standing = (page: Page) => page.locator(".resupply-standing");

const picture = (page: Page, host: string, name: string) =>
  page.screenshot({ path: join(screens, `${host}-resupply-${name}.png`) });

/** Nothing that keeps people from using it, in both schemes. */
const isForEverybody = async (page: Page, host: string, name: string): Promise<void> => {
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    await page.waitForTimeout(100);
    await picture(page, host, `${name}-${colorScheme}`);
    const { violations } = await new AxeBuilder({ page }).setLegacyMode(host === "desktop").analyze();
    const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
    expect
      .soft(serious.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(" ")).join(", ")}`))
      .toEqual([]);
  }
};

test("the short sortie is cured by a proposal, which is compared, taken as a case and supplied", async ({
  planner,
  host,
}) => {
  test.slow();
  const { page } = planner;
  await planner.resize(1280, 800);
  await planner.choose("view.resupply");
  await expect(page.getByText(/^Every sortie supplied;/)).toBeVisible();
  await isForEverybody(page, host, "question");
  await page.getByRole("button", { name: "Find plan" }).click();
  await expect(standing(page)).toContainText(/1 flight supplies every sortie; it cannot be done with none/);
  await isForEverybody(page, host, "proposal");
  await expect(page.getByRole("grid", { name: "What changes, and why" })).toContainText(/without it .* lacks/);

  await page.getByRole("tab", { name: "Both plans compared" }).click();
  const sums = page.getByRole("grid", { name: "Both plans compared" });
  await expect(sums.getByRole("row", { name: /All sorties fly when planned/ })).toContainText(/points/);
  await isForEverybody(page, host, "compared");

  await page.getByRole("tab", { name: "What robustness costs" }).click();
  await page.getByRole("button", { name: "Find all three" }).click();
  await expect(page.getByText(/also with any one flight lost/)).toBeVisible();
  await isForEverybody(page, host, "robustness");

  await planner.choose("view.timeline");
  await picture(page, host, "ghosts");
  await planner.choose("view.resupply");
  await page.getByRole("tab", { name: "Proposal" }).click();
  await page.getByRole("button", { name: "Take as a new plan case" }).click();
  await expect(page.getByRole("status").filter({ hasText: /Taken as plan case/ })).toContainText(
    /Go, if\. All 5 sorties/,
  );
  await picture(page, host, "taken");
  await page.getByRole("button", { name: /^Show it beside/ }).click();
  await expect(page.getByText(/pairs of runs under the same draws/)).toBeVisible();
});
