/** How likely the plan is to hold: a quick answer by itself, long runs, stopping, stating a slip, bands, two cases, kept runs. */
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "@playwright/test";
import { root } from "../equipment/project.ts";
import { expect, test } from "../harness/test.ts";

const screens = join(root, "test/e2e/screens");
const standing = (page: Page) => page.locator(".risk-standing");
const basis = (page: Page) => page.locator(".risk-basis");

/** Counted answers of a browser door that gives arrays as objects would not be drawn at all. */
const picture = (page: Page, host: string, name: string) =>
  page.screenshot({ path: join(screens, `${host}-risk-${name}.png`) });

test("a plan is run over its uncertain inputs, and what comes of it is shown", async ({ planner, host }) => {
  test.slow();
  const { page } = planner;
  await planner.resize(1280, 800);
  await planner.choose("view.risk");
  await expect(standing(page)).toContainText(/sorties fly when planned in/);
  await expect(basis(page)).toContainText(/4.096 runs, seed 1/u);
  await expect(page.getByText(/A probability from assumed inputs is an opinion/)).toBeVisible();

  // A long run: seen to fill, stopped, and the answer of the runs so far says so.
  await page.getByRole("textbox", { name: "Runs", exact: true }).fill("10000000");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: /^Run 10/ }).click();
  await expect(page.locator(".run-line")).toContainText(/runs\/s/);
  await expect(basis(page)).not.toContainText(/^4.096 runs/u);
  await picture(page, host, "running");
  await page.locator(".run-line").getByRole("button", { name: "Stop" }).click();
  await expect(page.getByText(/Stopped after .* runs/)).toBeVisible();
  // To an error.
  await page.getByRole("textbox", { name: "Largest error" }).fill("2");
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: /^Run until/ }).click();
  await expect(page.getByText(/Stopped after/)).toBeHidden();
  await page.getByRole("button", { name: "Keep this run" }).click();
  await expect(page.getByText(/Run 1 is kept in the ledger/)).toBeVisible();

  await page.getByRole("tab", { name: "Kept runs" }).click();
  await page.getByRole("button", { name: "Run again" }).click();
  await expect(page.getByText(/gives the same answer to the byte/)).toBeVisible();
});

test("what it hangs on, the end, the assumptions and the kept runs are there for everybody", async ({
  planner,
  host,
}) => {
  test.slow();
  const { page } = planner;
  await planner.resize(1280, 800);
  await planner.choose("view.risk");
  await expect(basis(page)).toContainText(/4.096 runs/u);
  for (const [tab, name] of [
    ["End of the campaign", "end"],
    ["What it hangs on", "drivers"],
    ["Assumptions", "assumptions"],
    ["Kept runs", "kept"],
  ] as const) {
    await page.getByRole("tab", { name: tab }).click();
    if (name === "drivers") await expect(page.getByText("Without one flight: as if it never flew")).toBeVisible();
    if (name === "assumptions") await expect(page.getByText("assumed", { exact: true }).first()).toBeVisible();
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
  }
});

test("an edit makes the answer old until a new one comes; bands and supply follow", async ({ planner, host }) => {
  test.slow();
  const { page } = planner;
  await planner.resize(1280, 800);
  await planner.choose("view.risk");
  await expect(basis(page)).toContainText(/4.096 runs/u);
  const before = await standing(page).textContent();
  // No slip at all: stated, with its source.
  await page.getByRole("tab", { name: "Assumptions" }).click();
  await page.getByRole("button", { name: /^Add risk input/i }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByRole("button", { name: /^Add/ }).click();
  await expect(dialog).toBeHidden();
  await expect(basis(page)).not.toContainText(/as it was/);
  await planner.choose("view.supply");
  await expect(page.getByRole("columnheader", { name: /Probability/ })).toBeVisible();
  await expect(page.getByText(/\d.±.\d/u).first()).toBeVisible();
  await picture(page, host, "supply");
  await planner.choose("view.timeline");
  await expect(page.getByText(/Risk bands: 5 to 95 %/)).toBeVisible();
  await picture(page, host, "bands");
  await planner.choose("view.bands");
  await expect(page.getByText(/Risk bands: 5 to 95 %/)).toBeHidden();
  await planner.choose("edit.undo");
  await planner.choose("view.risk");
  // Found again, not run again: it is of the plan as it was before.
  await expect(standing(page)).toHaveText(before ?? "");
});

test("two plan cases are compared run by run", async ({ planner, host }) => {
  const { page } = planner;
  await planner.choose("view.cases");
  await page.getByRole("button", { name: /compared with/i }).click();
  await page.getByRole("option", { name: /One more Packhorse/ }).click();
  await expect(page.getByText(/pairs of runs under the same draws/)).toBeVisible();
  await picture(page, host, "compare");
});
