/** What is recorded never parts from the plan: defaults change no status, a missing earlier event is offered, a slip of the pen is asked about. */
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

test("events are recorded as forecast, a note typed last is kept, a reversal is one click, and a look back is said first", async ({
  planner,
}) => {
  const { page } = planner;
  const main = page.getByRole("main");
  const dialog = page.getByRole("dialog");
  await expect(standing(page)).toContainText("No-go");
  await planner.choose("view.supply");
  const statuses = main.getByText(/^(supplied|thin|short|low on .*)$/);
  await expect(statuses.first()).toBeVisible();
  const before = await statuses.allTextContents();

  // An arrival whose departure has no record: refused as it stands, and both recorded in one step.
  await planner.choose("record.arrival");
  await dialog.getByRole("button", { name: /Flight$/ }).click();
  await page.getByRole("option", { name: /^Packhorse 3/ }).click();
  await expect(dialog.getByText("Packhorse 3 has no record of its departure.")).toBeVisible();
  const arrived = dialog.getByRole("button", { name: "Record arrival" });
  await expect(arrived).toBeDisabled();
  await dialog.getByText("Record its departure in the same step").click();
  await expect(arrived).toBeEnabled();
  // The note is typed last, and the button clicked at once.
  await dialog.getByRole("textbox", { name: "Note" }).pressSequentially("Docked at the second port.");
  await arrived.click();
  await expect(dialog).toBeHidden();
  await expect.poll(() => statuses.allTextContents()).toEqual(before);

  // A return whose loading has no record offers that one in the same step.
  await planner.choose("record.return");
  await dialog.getByRole("button", { name: /Sortie$/ }).click();
  await page.getByRole("option", { name: /^Sortie 2/ }).click();
  await expect(dialog.getByText("Sortie 2 has no record of its loading.")).toBeVisible();
  const returned = dialog.getByRole("button", { name: "Record return" });
  // The refusal that comes first moves what stands below it: the hand waits for it.
  await expect(returned).toBeDisabled();
  await dialog.getByText("Record its loading in the same step").click();
  await expect(returned).toBeEnabled();
  await page.keyboard.press("Escape");
  await expect(dialog).toBeHidden();

  // "17,000" has two meanings: a question in its place, and nothing is recorded.
  await planner.choose("record.reading");
  await dialog.getByRole("textbox", { name: "Level" }).fill("17,000");
  await dialog.getByRole("textbox", { name: "Level" }).press("Tab");
  await expect(dialog.getByText(/“17,000” can mean/)).toBeVisible();
  await dialog.getByRole("textbox", { name: "Read" }).fill("2131-06-01");
  await dialog.getByRole("textbox", { name: "Level" }).fill("900");
  await dialog.getByRole("textbox", { name: "Level" }).press("Tab");
  await expect(dialog.getByText(/lies after the end of every plan case, .*: is its year right\?/)).toBeVisible();
  await expect(dialog.getByRole("button", { name: "Record reading" })).toBeDisabled();
  await page.keyboard.press("Escape");
  await expect(dialog).toBeHidden();

  // The note is in the journal; the entry is reversed, its reason typed last.
  await planner.choose("view.journal");
  await main.getByText("Docked at the second port.").first().click();
  await page.getByRole("button", { name: "Reverse entry…" }).click();
  const reversal = page.getByRole("alertdialog");
  await reversal.getByRole("textbox", { name: "Reason" }).pressSequentially("Another tanker.");
  await reversal.getByRole("button", { name: "Reverse entry" }).click();
  await expect(reversal).toBeHidden();
  await expect(main.getByText("Another tanker.").first()).toBeVisible();
  await planner.choose("edit.undo");
  // The journal keeps the reversal and the entry made anew; what is undone next is the arrival again.
  await expect(page.getByRole("button", { name: /^Undo Packhorse 3 departed; Packhorse 3 arrived/ })).toBeVisible();

  // A pinned look back is the first thing that Supply and Timeline say, and is freed there.
  await planner.choose("plan.asOf");
  await dialog.getByRole("textbox", { name: "Forecast starts" }).fill("2031-03-15");
  await dialog.getByRole("button", { name: "Set" }).click();
  await expect(dialog).toBeHidden();
  await planner.choose("view.timeline");
  const looking = main.getByRole("alert").getByText(/^Looking back: this is what was known on 2031-03-15/);
  await expect(looking).toBeVisible();
  await planner.choose("view.supply");
  await expect(looking).toBeVisible();
  await main.getByRole("button", { name: "Follow the last record" }).click();
  await expect(looking).toBeHidden();
  await expect.poll(() => statuses.allTextContents()).toEqual(before);
});
