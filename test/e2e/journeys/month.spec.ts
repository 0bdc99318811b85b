/** At the month's end: what is missing is listed, differences stand in σ while one types; a reading that was wrong is put right in one step. */
import { faultsOf, wear } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

test("the sheet lists what is missing and tells differences in σ; a reading is recorded, found, and corrected as one step", async ({
  planner,
}) => {
  const { page } = planner;
  const dialog = page.getByRole("dialog");
  const footer = page.getByRole("contentinfo");
  const inspector = page.getByRole("complementary", { name: "Inspector" });
  await expect(standing(page)).toBeVisible();

  await planner.choose("record.closing");
  await expect(dialog.getByText("No record is missing up to then.")).toBeVisible();
  await dialog.getByRole("textbox", { name: "Up to" }).fill("2031-07-01");
  await dialog.getByRole("textbox", { name: "Up to" }).press("Tab");
  await expect(dialog.getByRole("region", { name: "Records that are missing" })).toContainText(/Drover 2 was to/);
  const hydrogen = dialog.getByRole("region", { name: "Tarn hydrogen" });
  await expect(hydrogen).toContainText(/by the books .+ then/);
  // While one types, before the field is left.
  await hydrogen.getByRole("textbox", { name: "Measured" }).pressSequentially("1");
  await expect(hydrogen).toContainText(/\d\sσ: not explained by the gauge/u);
  await expect(dialog.getByText("Beyond 3 σ: Tarn hydrogen.", { exact: false })).toBeVisible();
  await dialog.getByRole("button", { name: "Cancel" }).click();
  await expect(dialog).toBeHidden();

  await page.keyboard.press("Control+g");
  await dialog.getByRole("button", { name: /Tank$/ }).click();
  await page.getByRole("option", { name: "Tarn hydrogen" }).click();
  await dialog.getByRole("textbox", { name: "Level" }).fill("5000");
  await dialog.getByRole("textbox", { name: "Uncertainty, 1 σ" }).fill("60");
  await dialog.getByRole("textbox", { name: "Note" }).fill("read twice");
  await dialog.getByRole("button", { name: "Record reading" }).click();
  await expect(dialog).toBeHidden();

  // Its entry says what was read, leads to the reading, and this is put right there.
  await planner.choose("view.journal");
  const main = page.getByRole("main");
  await main.getByText("read twice").first().click();
  const level = inspector.getByRole("button", { name: /±/ });
  await expect(level).toHaveText(/^5\.00\st ± 60\skg$/u);
  await level.click();
  await expect(inspector).toContainText("gauge reading");
  await inspector.getByRole("button", { name: "Correct…" }).click();
  await expect(dialog.getByRole("textbox", { name: "Level" })).toHaveValue(/5.?000/u);
  for (const look of ["dark", "light"] as const) {
    await wear(page, look);
    expect(await faultsOf(page, look, ".dialog")).toEqual([]);
  }
  await dialog.getByRole("textbox", { name: "Level" }).fill("5900");
  await dialog.getByRole("textbox", { name: "Why" }).fill("The scale was read wrongly.");
  await dialog.getByRole("textbox", { name: "Why" }).press("Tab");
  await dialog.getByRole("button", { name: "Correct reading" }).click();
  await expect(dialog).toBeHidden();
  await expect(inspector).toContainText("withdrawn");
  await expect(main.getByText("The scale was read wrongly.").first()).toBeVisible();
  await footer.getByRole("button", { name: /^Undo/ }).click();
  await expect(inspector).not.toContainText("withdrawn");
  await expect(inspector).toContainText(/Measured\s*5\.00/u);
  await footer.getByRole("button", { name: /^Undo/ }).click();
  await expect(footer.getByRole("button", { name: /^Undo/ })).toBeDisabled();
});
