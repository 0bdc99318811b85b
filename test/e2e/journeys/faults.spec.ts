/** In Chromium alone, for the faults are of the page: every dialog and every menu, in each scheme and in forced colours, searched for faults. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "@playwright/test";
import { type ActionId, actions, menus } from "../../../app/contract/actions.ts";
import { root } from "../equipment/project.ts";
import { faultsOf, looks, wear } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { itemOf, standing } from "../harness/timeline.ts";

/** The page's own table of dialogs, so that none can be forgotten here. */
const everyDialog = [
  ...readFileSync(join(root, "renderer/dialogs.ts"), "utf8").matchAll(/^ {2}"([\w.]+)": \{ component/gm),
].map(([, id]) => actions.find((action) => action.id === id)?.id);

/** What opens over the page: how it is found here, and how by the search. */
const over = {
  dialog: ".dialog",
  popover: ".popover",
  menu: "[role=menu]",
} as const;

/** Opened, looked at in every look, and left by Escape. */
const looked = async (page: Page, what: string, kind: keyof typeof over, open: () => Promise<void>): Promise<void> => {
  await open();
  const part = page.locator(over[kind]);
  await expect(part, what).toBeVisible();
  await expect(part.locator("[aria-busy=true]")).toHaveCount(0);
  for (const look of looks) {
    await wear(page, look);
    expect.soft(await faultsOf(page, look, over[kind]), `${what}, ${look}`).toEqual([]);
  }
  await wear(page, "light");
  await page.keyboard.press("Escape");
  await expect(part, what).toHaveCount(0);
};

test("every dialog of the menus is without fault in every look", { tag: "@page" }, async ({ planner }) => {
  test.slow();
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  expect(everyDialog.length).toBeGreaterThan(25);
  expect(everyDialog).not.toContain(undefined);
  for (const action of everyDialog as ActionId[]) await looked(page, action, "dialog", () => planner.choose(action));
});

test("what adds and deletes is without fault in every look", { tag: "@page" }, async ({ planner }) => {
  test.slow();
  const { page } = planner;
  const main = page.getByRole("main");
  await expect(standing(page)).toBeVisible();
  await itemOf(page, "Sortie 5").focus();
  await looked(page, "delete a sortie", "dialog", () => page.keyboard.press("Delete"));
  for (const view of ["view.depots", "view.craft", "view.risk"] as const) {
    await planner.choose(view);
    if (view === "view.risk") await main.getByRole("tab", { name: "Assumptions" }).click();
    const buttons = main.getByRole("button", { name: /^Add .*…$/ });
    await expect(buttons.first()).toBeVisible();
    for (const button of await buttons.all())
      await looked(page, (await button.textContent()) ?? "", "dialog", () => button.click());
  }
});

test("every menu and list of choices is without fault in every look", { tag: "@page" }, async ({ planner }) => {
  test.slow();
  const { page } = planner;
  const main = page.getByRole("main");
  await expect(standing(page)).toBeVisible();
  const bar = page.getByRole("toolbar", { name: "Menus" });
  for (const name of menus)
    await looked(page, `menu ${name}`, "popover", () => bar.getByRole("button", { name, exact: true }).click());
  for (const name of ["Drover 3", "Sortie 5", "Hydrogen"])
    await looked(page, `menu at ${name}`, "menu", async () => {
      await itemOf(page, name).focus();
      await page.keyboard.press("Shift+F10");
    });
  await looked(page, "menu of the timeline", "popover", () =>
    main.getByRole("button", { name: "Copy or save" }).click(),
  );
  await planner.choose("view.cases");
  await looked(page, "menu of the cases", "popover", () =>
    main.getByRole("button", { name: "Case", exact: true }).click(),
  );
  await planner.choose("view.reports");
  for (const name of ["Save as"])
    await looked(page, `menu ${name}`, "popover", () => main.getByRole("button", { name }).click());
  await planner.choose("plan.addSortie");
  const dialog = page.locator(over.dialog);
  for (const name of [/Lander$/, /calendar/i])
    await looked(page, String(name), "popover", () => dialog.getByRole("button", { name }).first().click());
});
