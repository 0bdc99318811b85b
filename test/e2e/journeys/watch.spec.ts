/** What must be watched is one list with dates and a jump, also in the calendar; the ledger is shown to others and stays as it is. */
import ICAL from "ical.js";
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { itemOf, standing } from "../harness/timeline.ts";

test("what is thin or short or must leave soon is listed, gone to, and written into the calendar", async ({
  planner,
}) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  await page.keyboard.press("F8");
  await expect(page.getByRole("heading", { level: 1, name: "Watch" })).toBeVisible();
  const table = page.getByRole("grid", { name: /^To watch, as of 2031-/ });
  const short = table.getByRole("row").filter({ hasText: "Sortie 5 cannot load" });
  await expect(short).toContainText("Short");
  await expect(short).toContainText(/in \d+ days/);

  // The longer ahead, the more flights must leave.
  const leaving = table.getByRole("row").filter({ hasText: "must leave by" });
  await page.getByRole("button", { name: "Flights that must leave within" }).click();
  await page.getByRole("option", { name: "must leave within a year" }).click();
  await expect(leaving.first()).toContainText(/must leave by \d{4}-\d\d-\d\d \d\d:\d\d UTC \(planned: /);

  await short.getByRole("button", { name: "Show on the timeline" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Timeline" })).toBeVisible();
  await expect(page.getByRole("complementary", { name: "Inspector" })).toContainText("Sortie 5");
  await expect(itemOf(page, "Sortie 5")).toBeInViewport();

  await planner.choose("view.reports");
  await page.getByText("Dates to leave by and what is watched in the calendar").click();
  const text = await planner.savedText(() => planner.choose("report.ics"));
  const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((each) => new ICAL.Event(each));
  expect(events.map(({ summary }) => summary)).toContain("Short: Sortie 5");
  expect(events.some(({ summary }) => summary.startsWith("Leave by: "))).toBe(true);
});

test("shown to others, the ledger takes no edit and says so; recent ledgers open to be shown", async ({ planner }) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  await planner.choose("file.recentList");
  const dialog = page.getByRole("dialog", { name: "Recent ledgers" });
  await dialog.getByText("Read-only, to show it to others").click();
  expect(await faultsOf(page, "light")).toEqual([]);
  await dialog.getByRole("button", { name: /tarn/i }).first().click();
  await expect(dialog).toBeHidden();
  await expect(page.getByRole("contentinfo")).toContainText("read-only: shown to others");

  await itemOf(page, "Sortie 5").focus();
  await page.keyboard.press("Delete");
  await expect(page.getByRole("dialog")).toBeHidden();
  await page.keyboard.press("Enter");
  const inspector = page.getByRole("complementary", { name: "Inspector" });
  await expect(inspector.getByRole("textbox", { name: "Name" })).not.toBeEditable();

  // Loaded anew, it is still only shown.
  await page.reload();
  await expect(page.getByRole("contentinfo")).toContainText("read-only: shown to others");
  await planner.choose("file.readOnly");
  await expect(page.getByRole("contentinfo")).not.toContainText("read-only");
  await expect(standing(page)).toBeVisible();
  await itemOf(page, "Sortie 5").focus();
  await page.keyboard.press("Enter");
  await expect(inspector.getByRole("textbox", { name: "Name" })).toBeEditable();
});
