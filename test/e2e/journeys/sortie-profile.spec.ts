/** A profile is built by keyboard alone, the load changes on the timeline, and the third case flies by the cached one. */
import type { Page } from "@playwright/test";
import { expect, test } from "../harness/test.ts";

const steps = (page: Page) => page.getByRole("listbox", { name: "Steps of the profile" }).getByRole("option");

/** Opens the menu of steps from the keyboard and takes the entry that many places down. */
const addStep = async (page: Page, place: number, then: number): Promise<void> => {
  await page.getByRole("button", { name: "Add a step" }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("menuitem", { name: "Burn", exact: true })).toBeFocused();
  for (let i = 0; i < place; i++) await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await expect(steps(page)).toHaveCount(then);
};

test("a profile by keyboard changes what the sorties load; undo takes it back", async ({ planner }) => {
  const { page } = planner;
  await planner.choose("view.craft");
  await expect(page.getByText("All checks hold")).toBeVisible();

  await page.getByRole("button", { name: "New profile" }).focus();
  await page.keyboard.press("Enter");
  await expect(page.getByText("No steps yet.")).toBeVisible();
  await addStep(page, 0, 1);
  await addStep(page, 2, 2);
  await addStep(page, 0, 3);

  // The second burn before the stay, by Alt and arrow; the focus goes along; then it is removed and comes back by undo.
  await steps(page).nth(2).focus();
  await page.keyboard.press("Alt+ArrowUp");
  await expect(steps(page).nth(1)).toContainText("burn");
  await expect(steps(page).nth(1)).toBeFocused();
  await page.keyboard.press("Delete");
  await expect(steps(page)).toHaveCount(2);
  await planner.choose("edit.undo");
  await expect(steps(page)).toHaveCount(3);

  // 4000 m/s at 450 s: e^(4000/4413) = 2.476, so with a dry lander the load is some 22 t.
  await steps(page).nth(0).focus();
  await page.keyboard.press("Space");
  const deltaV = page.getByRole("textbox", { name: "Δv", exact: true });
  await deltaV.fill("4000");
  await deltaV.press("Enter");
  await expect(steps(page).nth(0)).toContainText(/4\s000\s*m\/s/);

  await page.getByRole("button", { name: /Use this profile for all/ }).focus();
  await page.keyboard.press("Enter");
  await planner.choose("view.supply");
  await expect(page.getByRole("main").getByText("short", { exact: true })).toHaveCount(0);
  await planner.choose("edit.undo");
  await expect(page.getByRole("main").getByText("short", { exact: true }).first()).toBeVisible();
});

test(
  "a hotter stay and a burn of two named engines are typed in; load, wear and tanker flights follow at once",
  { tag: "@page" },
  async ({ planner }) => {
    const { page } = planner;
    await planner.choose("view.craft");
    // The forecast's own count of flights, way by way; which two of those that bring enough does not matter.
    await expect(page.getByText(/^Return propellant cached: \S+ \d and \S+ \d can be left out\.$/)).toBeVisible();

    // Twelve days on the surface; hydrogen at 5 % a day instead of 0.4 %: some 350 kg more of it, by keyboard.
    const load = page.locator(".sheet-figures dd").first();
    await expect(load).toHaveText(/44\.54/);
    await steps(page).nth(5).focus();
    await page.keyboard.press("Space");
    await page.getByRole("button", { name: "Add a propellant" }).focus();
    await page.keyboard.press("Enter");
    await expect(page.getByRole("menuitem", { name: "Hydrogen" })).toBeFocused();
    await page.keyboard.press("Enter");
    const loses = page.getByRole("textbox", { name: "Hydrogen loses" });
    await expect(loses).toHaveValue("0.4");
    await loses.fill("120");
    await loses.press("Enter");
    await expect(page.getByText(/0 to 99/).first()).toBeVisible();
    await loses.fill("5");
    await loses.press("Enter");
    await expect(load).not.toHaveText(/44\.54/);

    // Two of the four engines leave the halo orbit, by name 2 and 4: only they wear by it.
    const wear = page.getByRole("grid", { name: /^Engine life/ });
    await steps(page).nth(1).focus();
    await page.keyboard.press("Space");
    const lit = page.getByRole("textbox", { name: "Engines lit" });
    await lit.fill("2");
    await lit.press("Enter");
    await expect(wear).toContainText("8 · 8 · 6 · 6");
    await page.getByRole("button", { name: "Which" }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("option", { name: /these/ }).press("Enter");
    for (const [engine, isOn] of [
      ["4", true],
      ["1", false],
    ] as const) {
      await page.getByRole("checkbox", { name: engine, exact: true }).focus();
      await page.keyboard.press("Space");
      await expect(page.getByRole("checkbox", { name: engine, exact: true })).toBeChecked({ checked: isOn });
    }
    await expect(wear).toContainText("6 · 8 · 6 · 8");
  },
);

test(
  "an order that cannot be flown is kept aside with the reason, and the plan stays as it was",
  { tag: "@page" },
  async ({ planner }) => {
    const { page } = planner;
    await planner.choose("view.craft");
    await page.getByRole("button", { name: "New profile" }).click();
    await expect(page.getByText("No steps yet.")).toBeVisible();
    await addStep(page, 0, 1);
    await addStep(page, 5, 3);
    await steps(page).nth(2).focus();
    await page.keyboard.press("Space");
    await page.keyboard.press("Alt+ArrowUp");
    await expect(page.getByText(/Not saved: .* which was not left before/)).toBeVisible();
    await page.getByRole("button", { name: "Revert" }).click();
    await expect(page.getByText(/Not saved/)).toHaveCount(0);
    await expect(steps(page).nth(2)).toContainText("take up the cache");
  },
);

test(
  "the third plan case caches the return propellant and cures the short sortie",
  { tag: "@page" },
  async ({ planner }) => {
    const { page } = planner;
    await planner.choose("view.craft");
    await page
      .getByRole("main")
      .getByRole("button", { name: /Baseline/ })
      .first()
      .click();
    await page.getByRole("option", { name: "Return propellant cached" }).click();
    await expect(steps(page).nth(3)).toContainText("leave the cache");
    await planner.choose("view.supply");
    await expect(page.getByRole("main").getByText("short", { exact: true })).toHaveCount(0);
  },
);

test(
  "a second way by an expendable lander of two stages: its stages, and from how many sorties on the other pays",
  { tag: "@page" },
  async ({ planner }) => {
    const { page } = planner;
    await planner.choose("view.craft");
    await page.getByRole("tab", { name: "Other vehicles" }).click();
    const across = page.getByRole("region", { name: "Ways by other vehicles" });
    await expect(across.getByRole("row", { name: /Wren, Two stages, spent, launched whole/ })).toBeVisible();
    await expect(across.getByText(/break-even at \d+\.\d; .*hangs most on/)).toBeVisible();
    await page.screenshot({ path: "test/e2e/screens/craft-other-vehicles.png" });

    await page.getByRole("button", { name: /Class of lander/ }).click();
    await page.getByRole("option", { name: /Wren/ }).click();
    await expect(steps(page).filter({ hasText: "part from the descent stage" })).toBeVisible();
    await page.getByRole("tab", { name: "Lander" }).click();
    await expect(page.getByRole("region", { name: "Descent stage: engines" })).toBeVisible();
  },
);
