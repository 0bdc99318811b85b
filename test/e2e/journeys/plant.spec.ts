/** A plant by keyboard: its figures as one types, its loads made into flights from the menu, a short sortie cured, undo. */
import { expect, test } from "../harness/test.ts";

test(
  "more water typed in, more pairs seen; the loads become flights and cure the short sortie; undo takes them back",
  { tag: "@page" },
  async ({ planner }) => {
    const { page } = planner;
    const main = page.getByRole("main");
    await planner.choose("view.depots");
    const plants = main.getByRole("grid", { name: /Plants/ });
    await plants.getByRole("rowheader", { name: "Rim plant" }).focus();
    await page.keyboard.press("Enter");
    const inspector = page.getByRole("complementary");
    const made = inspector.getByRole("status", { name: "Made on a day of duty" });
    await expect(made).toContainText("220.7");
    const water = inspector.getByRole("textbox", { name: "Water" });
    await water.fill("400");
    // (400 · 0.92)/8.93601 = 41.182 kg of hydrogen, 6.7 times that in pairs (F); the fuel cells' water is split again.
    await expect(made).toContainText("275.9");
    await water.press("Enter");
    await expect(plants.getByText("400.0")).toBeVisible();

    await planner.choose("plan.plantFlights");
    const dialog = page.getByRole("dialog");
    await expect(dialog.getByText("Sortie 5 goes from short to supplied.")).toBeVisible();
    await expect(dialog.getByRole("grid", { name: "Flights to be made" }).getByRole("row")).not.toHaveCount(1);
    await dialog.getByRole("button", { name: /^Make \d/ }).press("Enter");
    await expect(dialog).toHaveCount(0);
    await planner.choose("view.supply");
    await expect(main.getByText("short", { exact: true })).toHaveCount(0);
    await planner.choose("edit.undo");
    await expect(main.getByText("short", { exact: true }).first()).toBeVisible();
  },
);
