/** What a campaign planner does on the first day, in both hosts, on the demonstration ledger. */
import type { Page } from "@playwright/test";
import { expect, test } from "../harness/test.ts";
import { beginningOf, dragBy, itemOf, pixelsPerDay, standing } from "../harness/timeline.ts";

const DAY_MS = 86_400_000;
/** Drover 3 brings what Sortie 3 leaves with a month later: so many days of slip are too many. */
const SLIP_DAYS = 60;

const daysPerDrag = async (page: Page, days: number): Promise<number> =>
  days * (await pixelsPerDay(page, "Drover 3", "Drover 6"));

const undoButton = (page: Page) => page.getByRole("contentinfo").getByRole("button", { name: /^Undo/ });

test("a first start opens the demonstration, and says what is short", async ({ planner }) => {
  const { page } = planner;
  await expect(page.getByRole("heading", { level: 1, name: "Timeline" })).toBeVisible();
  await expect(page.getByRole("contentinfo")).toContainText("demonstration");
  await expect(page.getByRole("contentinfo")).toContainText("as of 2031-06-01");
  await expect(standing(page)).toHaveText(/4\s*supplied\s*1\s*short/);
  await expect(itemOf(page, "Sortie 5")).toHaveAccessibleName(/short by [\d ]+ kg of hydrogen/);
});

test("a flight is dragged until a sortie goes short, and back; undo and redo follow", async ({ planner }) => {
  const { page } = planner;
  await expect(standing(page)).toHaveText(/4\s*supplied\s*1\s*short/);
  const before = await beginningOf(page, "Drover 3");
  const pixels = await daysPerDrag(page, SLIP_DAYS);

  await dragBy(page, "Drover 3", pixels);
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/short by/);
  const moved = await beginningOf(page, "Drover 3");
  expect(Math.abs((moved - before) / DAY_MS - SLIP_DAYS)).toBeLessThan(3);

  await dragBy(page, "Drover 3", -pixels);
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/, supplied,/);
  await expect(standing(page)).toHaveText(/4\s*supplied\s*1\s*short/);

  await undoButton(page).click();
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/short by/);
  expect(await beginningOf(page, "Drover 3")).toBe(moved);
  await page.keyboard.press("Control+z");
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/, supplied,/);
  expect(await beginningOf(page, "Drover 3")).toBe(before);
  await expect(undoButton(page)).toBeDisabled();
  await page.keyboard.press("Control+Shift+z");
  await expect(itemOf(page, "Sortie 3")).toHaveAccessibleName(/short by/);
});

test("a drag that is given up changes nothing", async ({ planner }) => {
  const { page } = planner;
  const before = await beginningOf(page, "Drover 3");
  await dragBy(page, "Drover 3", await daysPerDrag(page, SLIP_DAYS), () => page.keyboard.press("Escape"));
  expect(await beginningOf(page, "Drover 3")).toBe(before);
  await expect(undoButton(page)).toBeDisabled();
});

test("a flight is moved by keys alone", async ({ planner }) => {
  const { page } = planner;
  const before = await beginningOf(page, "Packhorse 5");
  await itemOf(page, "Packhorse 5").focus();
  await page.keyboard.press("Space");
  for (let step = 0; step < 3; step++) await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("Space");
  await expect(undoButton(page)).toBeEnabled();
  expect((await beginningOf(page, "Packhorse 5")) - before).toBe(13 * DAY_MS);
});

/** Tabs until the focused element has this name; the mouse is not touched. */
const tabTo = async (page: Page, name: string | RegExp): Promise<void> => {
  for (let presses = 0; presses < 40; presses++) {
    await page.keyboard.press("Tab");
    const focused = page.locator("*:focus");
    const label = await focused.evaluate(
      (element) =>
        element.getAttribute("aria-label") ??
        (element as HTMLInputElement).labels?.[0]?.textContent ??
        element.textContent ??
        "",
    );
    if (typeof name === "string" ? label.trim() === name : name.test(label)) return;
  }
  throw new Error(`the Tab key does not lead to ${String(name)}`);
};

test("a sortie is added by keyboard alone", async ({ planner }) => {
  const { page } = planner;
  await expect(itemOf(page, "Sortie 6")).toBeAttached();
  await page.keyboard.press("Control+Shift+S");
  const dialog = page.getByRole("dialog", { name: "Add sortie" });
  await expect(dialog).toBeVisible();
  await tabTo(page, "Name");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("Sortie to the rim");
  await tabTo(page, "Loads and leaves");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("2032-12-01");
  await tabTo(page, "Add");
  await page.keyboard.press("Enter");
  await expect(dialog).toBeHidden();
  await expect(itemOf(page, "Sortie to the rim")).toHaveAccessibleName(/loads 2032-12-01/);
  await expect(undoButton(page)).toBeEnabled();
});

test("another plan case is shown, by the list and by keys", async ({ planner }) => {
  const { page } = planner;
  await expect(standing(page)).toHaveText(/1\s*short/);
  await page
    .getByRole("button", { name: /Plan case$/ })
    .first()
    .click();
  await page.getByRole("option", { name: "One more Packhorse" }).click();
  await expect(page.getByRole("contentinfo")).toContainText("One more Packhorse");
  await expect(standing(page)).toHaveText(/^\s*Go, if\s*5\s*supplied\s*$/);
  await page.keyboard.press("Control+[");
  await expect(page.getByRole("contentinfo")).toContainText("Baseline");
  await expect(standing(page)).toHaveText(/1\s*short/);
});
