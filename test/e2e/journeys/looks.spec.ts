/** In Chromium alone, for the faults are of the page: what the plan is worked in, in each scheme and in forced colours, searched for faults. */
import { faultsOf, looks, wear } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";

test(
  "filter, list of columns, a cell being edited and the month’s sheet are without fault in every look",
  { tag: "@page" },
  async ({ planner }) => {
    test.slow();
    const { page } = planner;
    const inEveryLook = async (what: string, part: "main" | "[role=dialog]"): Promise<void> => {
      for (const look of looks) {
        await wear(page, look);
        expect.soft(await faultsOf(page, look, part), `${what}, ${look}`).toEqual([]);
      }
    };
    await planner.choose("view.table");
    const flights = page.getByRole("grid", { name: "Flights" });
    await page.getByRole("button", { name: "Filter", exact: true }).click();
    await expect(page.getByRole("region", { name: "Filter" })).toBeVisible();
    await page.getByRole("button", { name: "Columns of Flights" }).click();
    await expect(page.getByRole("option", { name: "Leaves the port" })).toBeVisible();
    await inEveryLook("list of columns", "[role=dialog]");
    await page.keyboard.press("Escape");
    await flights.getByRole("gridcell", { name: "planned", exact: true }).first().focus();
    await page.keyboard.press("F2");
    await inEveryLook("cell being edited", "main");
    await page.keyboard.press("Escape");
    await planner.choose("record.closing");
    await page.getByRole("textbox", { name: "Measured" }).first().fill("1");
    await expect(page.getByText(/^Beyond 3 σ: /)).toBeVisible();
    await inEveryLook("month’s sheet", "[role=dialog]");
    await page.getByRole("textbox", { name: "Measured" }).first().fill("");
    await page.getByRole("checkbox", { name: /compare the measured loss rates/ }).check({ force: true });
    await page.getByRole("button", { name: "Book boil-off" }).click();
    await expect(page.getByText("Reduced χ²").first()).toBeVisible();
    await inEveryLook("measured rates", "[role=dialog]");
  },
);
