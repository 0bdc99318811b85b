/** Several flights and sorties at once: pressed, drawn around or taken from tables; moved, copied, deleted, each as one step. */
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { beginningOf, itemOf, middleOf, standing } from "../harness/timeline.ts";

const DAY_MS = 86_400_000;

test("what is selected together is moved, copied clear of its originals, and deleted, each undone in one step", async ({
  planner,
  host,
}) => {
  test.slow();
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  const inspector = page.getByRole("complementary", { name: "Inspector" });
  const footer = page.getByRole("contentinfo");
  const heading = inspector.getByRole("heading", { level: 2 });
  /** Until the inspector says so: it takes room when it comes, and what was aimed at has moved. */
  const press = async (name: string, key: "Control" | null, then: string): Promise<void> =>
    expect(async () => {
      const { x, y } = await middleOf(page, name);
      if (key !== null) await page.keyboard.down(key);
      await page.mouse.click(x, y);
      if (key !== null) await page.keyboard.up(key);
      await expect(heading).toHaveText(then, { timeout: 1000 });
    }).toPass();

  // A name that another has is asked about where it is typed; another thing is read from its title on.
  await press("Sortie 5", null, "Sortie 5");
  const named = inspector.getByRole("textbox", { name: "Name" });
  await named.fill("sortie 6");
  await expect(inspector.getByText("Another is called “Sortie 6” already. Are they two?")).toBeVisible();
  await named.press("Escape");
  await inspector.getByRole("button", { name: "Delete…" }).scrollIntoViewIfNeeded();
  await press("Sortie 4", null, "Sortie 4");
  await expect(heading).toBeInViewport({ ratio: 1 });

  // With Ctrl one more, of whatever kind; both move by what is typed.
  await press("Drover 5", null, "Drover 5");
  await press("Sortie 6", "Control", "1 flight and 1 sortie");
  expect(await faultsOf(page, "light")).toEqual([]);
  const flightAt = await beginningOf(page, "Drover 5");
  const sortieAt = await beginningOf(page, "Sortie 6");
  await inspector.getByRole("textbox", { name: "Later by" }).fill("3");
  await inspector.getByRole("button", { name: "Move", exact: true }).click();
  await expect.poll(() => beginningOf(page, "Drover 5")).toBe(flightAt + 3 * DAY_MS);
  await expect.poll(() => beginningOf(page, "Sortie 6")).toBe(sortieAt + 3 * DAY_MS);
  await footer.getByRole("button", { name: "Undo Move 1 flight and 1 sortie by +3 days" }).click();
  await expect.poll(() => beginningOf(page, "Drover 5")).toBe(flightAt);
  await expect.poll(() => beginningOf(page, "Sortie 6")).toBe(sortieAt);

  // One status for all, and one step.
  await inspector.getByRole("button", { name: /Status$/ }).click();
  await page.getByRole("option", { name: "cancelled" }).click();
  await expect(itemOf(page, "Drover 5")).toHaveAccessibleName(/cancelled/);
  await footer.getByRole("button", { name: /^Undo .*1 flight and 1 sortie/ }).click();
  await expect(itemOf(page, "Drover 5")).not.toHaveAccessibleName(/cancelled/);

  // By keys: walked over with Shift, taken out with Ctrl+Space.
  await itemOf(page, "Sortie 4").focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Shift+ArrowRight");
  await expect(heading).toHaveText("2 sorties");
  await page.keyboard.press("Control+Space");
  await expect(heading).toHaveText("Sortie 4");

  // It and all after, deleted together, with what hangs on them; one undo brings all back.
  await inspector.getByRole("button", { name: "Select this and all after" }).click();
  await expect(heading).toHaveText(/^\d+ flights and 3 sorties$/);
  await page.keyboard.press("Escape");
  await inspector.getByRole("button", { name: "Delete all…" }).click();
  await page
    .getByRole("alertdialog")
    .getByRole("button", { name: /^Delete/ })
    .click();
  await expect(itemOf(page, "Sortie 6")).toBeHidden();
  await expect(itemOf(page, "Sortie 3")).toBeVisible();
  // A long label does not push the last figure out of sight.
  await expect(footer.getByText(/^forecast/)).toBeInViewport({ ratio: 1 });
  await footer.getByRole("button", { name: /^Undo Delete \d+ flights and 3 sorties/ }).click();
  await expect(itemOf(page, "Sortie 6")).toBeVisible();

  // A box drawn on the ground with Shift holds what it touches; drawn anew where the inspector came or went meanwhile.
  await expect(async () => {
    const first = await itemOf(page, "Sortie 4").boundingBox();
    const last = await itemOf(page, "Sortie 6").boundingBox();
    if (first === null || last === null) throw new Error("the sorties are not on the timeline");
    await page.keyboard.down("Shift");
    await page.mouse.move(first.x - 12, first.y + 2);
    await page.mouse.down();
    await page.mouse.move(last.x + last.width + 6, last.y + last.height - 2, { steps: 4 });
    await expect(page.locator(".select-box")).toBeVisible({ timeout: 1000 });
    await page.mouse.up();
    await page.keyboard.up("Shift");
    await expect(page.locator(".select-box")).toBeHidden();
    await expect(heading).toHaveText("3 sorties", { timeout: 1000 });
  }).toPass();

  // The same rows in the table; copies come after the last of them, under names of their own.
  await page.keyboard.press(host === "browser" ? "F9" : "Control+t");
  const row = (name: string) =>
    page.getByRole("row").filter({ has: page.getByRole("rowheader", { name, exact: true }) });
  await expect(row("Sortie 5").first()).toHaveAttribute("aria-selected", "true");
  await row("Packhorse 4").getByRole("rowheader").click();
  await row("Packhorse 5")
    .getByRole("rowheader")
    .click({ modifiers: ["ControlOrMeta"] });
  await expect(heading).toHaveText("2 flights");
  const names = await page.getByRole("rowheader", { name: /^Packhorse/ }).allInnerTexts();
  await inspector.getByRole("button", { name: "Copy", exact: true }).click();
  await expect
    .poll(async () => (await page.getByRole("rowheader", { name: /^Packhorse/ }).allInnerTexts()).length)
    .toBe(names.length + 2);
  const after = await page.getByRole("rowheader", { name: /^Packhorse/ }).allInnerTexts();
  expect(new Set(after).size).toBe(after.length);
  await footer.getByRole("button", { name: /^Undo Copy 2 flights, \d+ days later/ }).click();
  await expect
    .poll(async () => (await page.getByRole("rowheader", { name: /^Packhorse/ }).allInnerTexts()).length)
    .toBe(names.length);
});
