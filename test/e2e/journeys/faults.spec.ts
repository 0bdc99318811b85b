/** In Chromium alone, for the faults are of the page: every dialog and every menu, in each scheme and in forced colours, searched for faults. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "@playwright/test";
import { type ActionId, actions, menus } from "../../../app/contract/actions.ts";
import { root } from "../equipment/project.ts";
import { faultsOf, looks, wear } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { itemOf, standing } from "../harness/timeline.ts";

/** The page's own table of dialogs, so that none can be forgotten here. */
const everyDialog = [
  ...readFileSync(join(root, "renderer/dialogs.ts"), "utf8").matchAll(/^ {2}"([\w.]+)": \{ component/gm),
].map(([, id]) => actions.find((action) => action.id === id)?.id);

const inEveryLook = async (page: Page, what: string, part: Locator, within: string): Promise<void> => {
  await expect(part, what).toBeVisible();
  await expect(part.locator("[aria-busy=true]")).toHaveCount(0);
  for (const look of looks) {
    await wear(page, look);
    expect.soft(await faultsOf(page, look, within), `${what}, ${look}`).toEqual([]);
  }
  await wear(page, "light");
};

test("every dialog of the menus is without fault in every look", { tag: "@page" }, async ({ planner }) => {
  test.slow();
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  expect(everyDialog.length).toBeGreaterThan(25);
  expect(everyDialog).not.toContain(undefined);
  const dialog = page.locator(".dialog");
  for (const action of everyDialog as ActionId[]) {
    await planner.choose(action);
    await inEveryLook(page, action, dialog, ".dialog");
    await page.keyboard.press("Escape");
    await expect(dialog, action).toHaveCount(0);
  }
});

test(
  "what is added in the views, and every menu, is without fault in every look",
  { tag: "@page" },
  async ({ planner }) => {
    test.slow();
    const { page } = planner;
    const main = page.getByRole("main");
    const dialog = page.locator(".dialog");
    const popover = page.locator(".popover");
    await expect(standing(page)).toBeVisible();

    for (const menu of menus) {
      await page.getByRole("toolbar", { name: "Menus" }).getByRole("button", { name: menu, exact: true }).click();
      await inEveryLook(page, `menu ${menu}`, popover, ".popover");
      await page.keyboard.press("Escape");
      await expect(popover).toHaveCount(0);
    }
    for (const name of ["Drover 3", "Sortie 5", "Hydrogen"]) {
      await itemOf(page, name).focus();
      await page.keyboard.press("Shift+F10");
      await inEveryLook(page, `menu at ${name}`, page.getByRole("menu"), "[role=menu]");
      await page.keyboard.press("Escape");
      await expect(page.getByRole("menu")).toHaveCount(0);
    }
    await itemOf(page, "Sortie 5").focus();
    await page.keyboard.press("Delete");
    await inEveryLook(page, "delete a sortie", dialog, ".dialog");
    await page.keyboard.press("Escape");
    await expect(dialog).toHaveCount(0);

    for (const view of ["view.depots", "view.craft", "view.risk"] as const) {
      await planner.choose(view);
      if (view === "view.risk") await main.getByRole("tab", { name: "Assumptions" }).click();
      const buttons = main.getByRole("button", { name: /^Add .*…$/ });
      await expect(buttons.first()).toBeVisible();
      for (const button of await buttons.all()) {
        const what = (await button.textContent()) ?? "";
        await button.click();
        await inEveryLook(page, what, dialog, ".dialog");
        await page.keyboard.press("Escape");
        await expect(dialog).toHaveCount(0);
      }
    }

    await planner.choose("view.reports");
    for (const name of ["Save as"]) {
      await main.getByRole("button", { name }).click();
      await inEveryLook(page, `menu ${name}`, popover, ".popover");
      await page.keyboard.press("Escape");
      await expect(popover).toHaveCount(0);
    }
    await planner.choose("plan.addSortie");
    await dialog
      .getByRole("button", { name: /Lander$/ })
      .first()
      .click();
    await inEveryLook(page, "list of choices", popover, ".popover");
    await page.keyboard.press("Escape");
    await expect(popover).toHaveCount(0);
    await dialog
      .getByRole("button", { name: /calendar/i })
      .first()
      .click();
    await inEveryLook(page, "calendar", popover, ".popover");
  },
);
