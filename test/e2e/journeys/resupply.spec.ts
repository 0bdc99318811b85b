/** The flights that keep the lander flying: asked, found with proof, compared, taken as a case; stopping; what cannot be held. */
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { root } from "../equipment/project.ts";
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";

const screens = join(root, "test/e2e/screens");

const standing = (page: Page) => page.locator(".resupply-standing");

const picture = (page: Page, host: string, name: string) =>
  page.screenshot({ path: join(screens, `${host}-resupply-${name}.png`) });

/** Looked at in both schemes; nothing that keeps people from using it, which is the same page in both hosts. */
const isForEverybody = async (page: Page, host: string, name: string): Promise<void> => {
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    await page.waitForTimeout(100);
    await picture(page, host, `${name}-${colorScheme}`);
    if (host === "desktop") continue;
    expect.soft(await faultsOf(page, colorScheme), name).toEqual([]);
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
  await expect(standing(page)).toContainText(/1 flight supplies every sortie; it cannot be done with none/, {
    timeout: 60_000,
  });
  await isForEverybody(page, host, "proposal");
  await expect(page.getByRole("grid", { name: "What changes, and why" })).toContainText(/without it .* lacks/);
  // On paper: what was asked, found and proved, with the caution, and nothing to be operated.
  await page.emulateMedia({ media: "print" });
  const paper = page.locator(".resupply-paper");
  await expect(paper).toContainText(/it cannot be done with none/);
  await expect(paper).toContainText(/planning aid, not a flight-certified product/);
  await expect(paper.getByRole("table", { name: "Flights added, kept and left out" })).toBeVisible();
  await expect(page.getByRole("button", { name: "Find plan" })).toBeHidden();
  if (host === "browser") {
    const sheet = await page.pdf({ format: "A4", path: join(screens, "browser-resupply-paper.pdf") });
    expect(sheet.subarray(0, 5).toString()).toBe("%PDF-");
  }
  await page.emulateMedia({ media: "screen" });

  await page.getByRole("tab", { name: "Both plans compared" }).click();
  const sums = page.getByRole("grid", { name: "Both plans compared" });
  await expect(sums.getByRole("row", { name: /All sorties fly when planned/ })).toContainText(/points/);
  await isForEverybody(page, host, "compared");

  await page.getByRole("tab", { name: "What robustness costs" }).click();
  await page.getByRole("button", { name: "Find all three" }).click();
  await expect(page.getByText(/also with any one flight lost/)).toBeVisible();
  await isForEverybody(page, host, "robustness");

  await planner.choose("view.timeline");
  await expect(page.getByText(/Dashed blocks and dotted levels/)).toBeVisible();
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

test("a search that is stopped keeps the best plan, and an edit marks it as old", async ({ planner, host }) => {
  test.slow();
  const { page } = planner;
  await planner.resize(1280, 800);
  await planner.choose("view.resupply");
  // Long enough to be stopped: every day a flight may come, whichever one is lost, and planned ones may go.
  await page.getByRole("button", { name: /^none of the flights lost With/ }).click();
  await page.getByRole("option", { name: /any one flight lost/ }).click();
  await page.getByRole("button", { name: /^at the depot’s windows/ }).click();
  await page.getByRole("option", { name: /at a fixed interval/ }).click();
  await page.getByRole("textbox", { name: "Interval" }).fill("1");
  await page.keyboard.press("Enter");
  await page.getByText("planned flights may be left out").click();
  await page.getByRole("button", { name: "Find plan" }).click();
  const bracket = page.locator(".resupply-bracket");
  await expect(bracket).toContainText(/\d flights so far; fewer than \d+ are impossible/, { timeout: 60_000 });
  await picture(page, host, "running");
  await page.locator(".run-line").getByRole("button", { name: "Stop" }).click();
  await expect(standing(page)).toContainText(/the search was stopped/, { timeout: 30_000 });
  await expect(standing(page)).toContainText(/flights supply every sortie/);
  await expect(page.getByRole("button", { name: "Take as a new plan case" })).toBeEnabled();
  // Kept while another view is looked at; old once the plan is another.
  await planner.choose("view.timeline");
  await expect(page.getByText(/Dashed blocks and dotted levels/)).toBeVisible();
  await picture(page, host, "replaced");
  await planner.choose("view.supply");
  await page
    .getByRole("button", { name: /^Take: .*every sortie is supplied/ })
    .first()
    .click();
  await planner.choose("view.resupply");
  await expect(page.getByText(/The plan has changed since/)).toBeVisible();
  await expect(page.getByRole("button", { name: "Take as a new plan case" })).toBeDisabled();
  await planner.choose("edit.undo");
  await expect(page.getByText(/The plan has changed since/)).toBeHidden();
});

test("a short sortie is repaired where it is shown, and a loss that is supposed is repaired", async ({
  planner,
  host,
}) => {
  test.slow();
  const { page } = planner;
  await planner.resize(1280, 800);
  await planner.choose("view.supply");
  const repair = page.getByRole("region", { name: "Cures and repairs" });
  await expect(repair).toContainText(/every sortie is supplied/, { timeout: 60_000 });
  await picture(page, host, "repair-supply");
  await repair
    .getByRole("button", { name: /^Take: .*every sortie is supplied/ })
    .first()
    .click();
  await expect(page.getByLabel("Verdict", { exact: true })).toContainText(/Go, if/);
  await expect(repair).toBeHidden();
  await planner.choose("view.resupply");
  await page.getByRole("tab", { name: "Repair" }).click();
  await expect(page.getByText("Every sortie is held: nothing need change.")).toBeVisible();
  await page.getByRole("button", { name: /^nothing further happens If/ }).click();
  await page.getByRole("option", { name: "Drover 4", exact: true }).click();
  await expect(page.getByText(/^Unrepaired, /)).toBeVisible();
  await expect(
    page
      .locator(".repair-ways li")
      .filter({ hasText: /every sortie is supplied/ })
      .first(),
  ).toBeVisible();
  await isForEverybody(page, host, "repair");
  await page.getByRole("tab", { name: "Leave by" }).click();
  const dates = page.getByRole("grid", { name: /^Leave by: each flight alone/ });
  await expect(dates.getByRole("row").nth(1)).toContainText(/\d{4}-\d\d-\d\d/);
  await dates.getByRole("row").nth(1).getByRole("gridcell").first().click();
  await expect(page.locator(".inspector").getByText("Leave by")).toBeVisible();
  await isForEverybody(page, host, "leave-by");
});

test(
  "what cannot be held is said with its number, and a cure is one click",
  { tag: "@page" },
  async ({ planner, host }) => {
    const { page } = planner;
    await planner.resize(1024, 768);
    await planner.choose("view.resupply");
    await page.getByRole("textbox", { name: "Further flights, at most" }).fill("0");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Find plan" }).click();
    await expect(page.getByRole("region", { name: "What cannot be held" })).toContainText(
      /Sortie 5 is short by 2.54.t of oxygen/u,
      { timeout: 60_000 },
    );
    await isForEverybody(page, host, "unheld");
    await page.getByRole("button", { name: "Find plan with it" }).click();
    await expect(standing(page)).toContainText(/1 flight supplies every sortie/, { timeout: 60_000 });
  },
);
