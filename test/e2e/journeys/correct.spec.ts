/** A record of a flight put right as one step: its own form, what will be written, and one undo. */
import { expect, test } from "../harness/test.ts";

test("an arrival’s mass and a departure’s date are put right, seen before they are written, and undone", async ({
  planner,
}) => {
  const { page } = planner;
  const main = page.getByRole("main");
  const dialog = page.getByRole("dialog");
  await planner.choose("view.journal");
  await main.getByText("Arrival: Packhorse 2").first().click();
  await page.getByRole("button", { name: "Correct…" }).click();
  await expect(dialog.getByRole("heading", { name: "Correct arrival of Packhorse 2" })).toBeVisible();
  const mass = dialog.getByRole("textbox", { name: "Tarn hydrogen" });
  await expect(mass).not.toHaveValue("0");
  await mass.fill("1900");
  await mass.press("Tab");
  await expect(dialog.getByRole("table", { name: "Levels, in kg" })).toBeVisible();
  const both = dialog.getByRole("table", { name: "Arrival: Packhorse 2, in kg" });
  await expect(both.getByRole("row", { name: /^Tarn hydrogen .*−1\s930\.400 \+1\s900\.000$/ })).toBeVisible();
  const write = dialog.getByRole("button", { name: "Correct arrival" });
  await expect(write).toBeDisabled();
  // The reason is typed last, and Enter writes it.
  await dialog.getByRole("textbox", { name: "Why" }).fill("Read from the wrong gauge.");
  await dialog.getByRole("textbox", { name: "Why" }).press("Tab");
  await expect(write).toBeEnabled();
  await write.press("Enter");
  await expect(dialog).toBeHidden();
  await expect(main.getByText("Read from the wrong gauge.").first()).toBeVisible();

  // A departure on which the arrival rests says what to do first; one under way is moved by a day from its own inspector.
  await main.getByText("Departure: Packhorse 2").first().click();
  await page.getByRole("button", { name: "Correct…" }).click();
  await expect(dialog.getByText(/Packhorse 2 arrived by a later record .* Reverse that one first/)).toBeVisible();
  await dialog.getByRole("button", { name: "Show that record" }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByRole("complementary").getByRole("heading", { name: "Arrival: Packhorse 2" })).toBeVisible();
  await main.getByText("Departure: Drover 2").first().click();
  await page.getByRole("button", { name: "Correct…" }).click();
  const left = dialog.getByRole("textbox", { name: "Departed" });
  await left.fill("2031-05-20 09:00");
  await left.press("Tab");
  await expect(dialog.getByRole("columnheader", { name: /^Written 2031-05-20 09:00/ })).toBeVisible();
  await dialog.getByRole("textbox", { name: "Why" }).fill("A day out.");
  await dialog.getByRole("textbox", { name: "Why" }).press("Tab");
  await dialog.getByRole("button", { name: "Correct departure" }).click();
  await expect(dialog).toBeHidden();

  await main.getByRole("tab", { name: "Edits" }).click();
  await main.getByRole("button", { name: "Undo Correct departure of Drover 2" }).click();
  await main.getByRole("button", { name: "Undo Correct arrival of Packhorse 2" }).click();
  await expect(main.getByRole("button", { name: "Redo Correct arrival of Packhorse 2" })).toBeEnabled();
});
