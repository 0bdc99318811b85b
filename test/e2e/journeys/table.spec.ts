/** In Chromium alone, for the desktop's test driver gives no paste by keys. The tables of the timeline as a person fills them in: a cell typed, a copied block pasted, what cannot be read said. */
import { faultsOf } from "../harness/faults.ts";
import { expect, test } from "../harness/test.ts";

test(
  "a cell is typed over, a copied row is pasted on another, each one step; a date that is none stays and says so",
  { tag: "@page" },
  async ({ planner }) => {
    const { page } = planner;
    await planner.choose("view.table");
    const flights = page.getByRole("grid", { name: "Flights" });
    const footer = page.getByRole("contentinfo");
    const row = (name: string) => flights.getByRole("row", { name: new RegExp(`^${name} `) });
    const cell = (name: string, text: string) => row(name).getByRole("gridcell", { name: text, exact: true });

    await cell("Drover 3", "planned").focus();
    await page.keyboard.type("firm");
    await page.keyboard.press("Enter");
    await expect(footer.getByRole("button", { name: "Undo Change status of Drover 3" })).toBeVisible();
    await expect(cell("Drover 3", "firm")).toBeVisible();

    // With its headings; under them the columns find their places wherever the block is pasted.
    await row("Drover 3").getByRole("rowheader").focus();
    await page.keyboard.press("Control+c");
    await expect(page.getByText(/Flights, 1 row/)).toBeVisible();
    await row("Drover 4").getByRole("rowheader").focus();
    await page.keyboard.press("Control+v");
    await expect(footer.getByRole("button", { name: /^Undo Paste \d+ cells of 1 flight$/ })).toBeVisible();
    await expect(page.getByText("More than one flight is called “Drover 3” now. Are they two?")).toBeVisible();
    await footer.getByRole("button", { name: /^Undo Paste/ }).click();
    await expect(cell("Drover 4", "planned")).toBeVisible();

    await row("Drover 4")
      .getByRole("gridcell", { name: /^2031-/ })
      .first()
      .focus();
    await page.keyboard.type("31 Feb 2031");
    await page.keyboard.press("Enter");
    await expect(
      page.getByRole("alert").filter({ hasText: "Drover 4, Departs: “31 Feb 2031” is not a date." }),
    ).toBeVisible();
    await expect(
      page
        .getByRole("combobox", { name: "Departs, Drover 4" })
        .or(page.getByRole("textbox", { name: "Departs, Drover 4" })),
    ).toBeFocused();
    expect(await faultsOf(page, "light")).toEqual([]);
    await page.keyboard.press("Escape");
    await expect(page.getByRole("alert").filter({ hasText: "is not a date" })).toBeHidden();
  },
);
