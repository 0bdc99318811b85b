/** In Chromium alone, for the faults are of the page: what the plan is worked in, in each scheme and in forced colours, searched for faults. */
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "@playwright/test";
import { expect, test } from "../harness/test.ts";

/**
 * Within a part of the page, for the frame around it is the other journeys'. In forced colours the system gives ink and ground, and the search, which reads the page's own,
 * cannot tell their contrast.
 */
const faults = async (
  page: Page,
  part: "main" | "[role=dialog]",
  forcedColors: "none" | "active",
): Promise<readonly string[]> => {
  const { violations } = await new AxeBuilder({ page })
    .include(part)
    .disableRules(forcedColors === "active" ? ["color-contrast"] : [])
    .analyze();
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join("\n")}`);
};

const looks = [
  { colorScheme: "light", forcedColors: "none" },
  { colorScheme: "dark", forcedColors: "none" },
  { colorScheme: "light", forcedColors: "active" },
] as const;

test(
  "filter, list of columns, a cell being edited and the month’s sheet are without fault in every look",
  { tag: "@page" },
  async ({ planner }) => {
    test.slow();
    const { page } = planner;
    const inEveryLook = async (what: string, part: "main" | "[role=dialog]"): Promise<void> => {
      for (const look of looks) {
        await page.emulateMedia(look);
        expect
          .soft(
            await faults(page, part, look.forcedColors),
            `${what}, ${look.colorScheme}, forced: ${look.forcedColors}`,
          )
          .toEqual([]);
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
