/** What is copied and saved: every table of every view as it is read, every chart as a picture that stands by itself. */
import type { Locator, Page } from "@playwright/test";
import type { Planner } from "../harness/planner.ts";
import { readSvg } from "../../app/picture/read-svg.ts";
import { expect, test } from "../harness/test.ts";
import { everyView } from "./every-view.ts";

/** What a cell shows, as a number; NaN where it shows words. */
const shownFigure = (text: string): number => {
  const bare = text.replace(/[\u2009\u202f]/g, "").replace("\u2212", "-");
  return bare === "" ? Number.NaN : Number(bare);
};

/** Half of the last decimal that is shown. */
const roundingOf = (text: string): number => 0.5 * 10 ** -(text.split(".")[1]?.length ?? 0) * 1.000001;

interface ShownTable {
  readonly name: string;
  readonly headings: readonly string[];
  readonly rows: readonly { readonly index: number; readonly cells: readonly { text: string; isNumber: boolean }[] }[];
}

/** The table beside a copy button, as far as it is drawn. */
const tableAt = (button: Locator): Promise<ShownTable> =>
  button.evaluate((node) => {
    const table = node.closest(".data-table")?.querySelector("table");
    return {
      name: node.getAttribute("aria-label") ?? "",
      headings: [...(table?.querySelectorAll("thead th") ?? [])].map((heading) =>
        [".heading-name", ".heading-unit"].flatMap((part) => heading.querySelector(part)?.textContent ?? []).join(", "),
      ),
      rows: [...(table?.querySelectorAll("tbody tr[aria-rowindex]") ?? [])].map((row) => ({
        index: Number(row.getAttribute("aria-rowindex")) - 1,
        cells: [...row.children].map((cell) => ({
          text: cell.textContent ?? "",
          isNumber: cell.classList.contains("cell-number"),
        })),
      })),
    };
  });

/** Copies one table and compares; answers how many figures were compared. */
const compareOnce = async (planner: Planner, button: Locator): Promise<number> => {
  const shown = await tableAt(button);
  await button.click();
  const head = async () => (await planner.copiedText()).split("\n")[0];
  await expect.poll(head, { timeout: 3000 }).toBe(shown.headings.join("\t"));
  const copied = (await planner.copiedText()).split("\n").map((row) => row.split("\t"));
  let figures = 0;
  for (const { index, cells } of shown.rows) {
    const out = copied[index] ?? [];
    expect(out, shown.name).toHaveLength(cells.length);
    cells.forEach(({ text, isNumber }, place) => {
      const figure = isNumber ? shownFigure(text) : Number.NaN;
      if (Number.isNaN(figure)) return;
      figures += 1;
      const where = `${shown.name}: ${copied[0]?.[place] ?? ""} of ${out[0] ?? ""}`;
      expect(Math.abs(Number(out[place]) - figure), where).toBeLessThanOrEqual(roundingOf(text));
    });
  }
  return figures;
};

/** A table may gain a column or a row while its button is reached for: what differs must do so again on a table at rest. */
const compareTable = async (planner: Planner, button: Locator): Promise<number> => {
  let figures = 0;
  await expect(async () => {
    figures = await compareOnce(planner, button);
  }).toPass({ timeout: 30_000 });
  return figures;
};

const settled = async (page: Page): Promise<void> => {
  await expect(page.locator("[aria-busy=true]")).toHaveCount(0);
};

test("every table goes out with the figures that it shows, in the unit of its heading", async ({ planner }) => {
  const { page } = planner;
  const main = page.getByRole("main");
  let tables = 0;
  let figures = 0;
  // The tables of a report are on paper; it goes out as a whole, in forms of its own.
  const without: readonly string[] = ["view.reports"];
  for (const view of everyView.filter(({ action }) => !without.includes(action))) {
    await planner.choose(view.action);
    await expect(page.getByRole("heading", { level: 1, name: view.title })).toBeVisible();
    if (view.action === "view.timeline") await planner.choose("view.table");
    const isStudy = view.action === "view.study";
    if (isStudy) await main.getByRole("button", { name: "Run study" }).click();
    // Maps and curves of a study are pictures alone.
    const tabs = main.getByRole("tab", isStudy ? { name: /^(Table|How far it holds)$/ } : {});
    const sheets = await tabs.all();
    for (const sheet of sheets.length === 0 ? [null] : sheets) {
      await sheet?.click();
      const buttons = main.getByRole("button", { name: /^Copy table: / });
      // A table without rows has nothing to copy.
      await expect(main.locator(".data-table").first()).toBeVisible();
      await settled(page);
      // Some come when the service has answered: until there is none that was not looked at.
      const done = new Set<string>();
      for (;;) {
        const names = await buttons.evaluateAll((nodes) => nodes.map((node) => node.getAttribute("aria-label") ?? ""));
        const name = names.find((candidate) => !done.has(candidate));
        if (name === undefined) break;
        done.add(name);
        figures += await compareTable(planner, main.getByRole("button", { name, exact: true }));
      }
      tables += done.size;
    }
  }
  // Every view has one at least; the demonstration has far more.
  expect(tables).toBeGreaterThanOrEqual(20);
  expect(figures).toBeGreaterThanOrEqual(300);

  // By the keyboard alone: the row that has the focus, under its headings.
  await planner.choose("view.supply");
  await main
    .getByRole("grid", { name: /^Margin over the reserve/ })
    .getByRole("rowheader")
    .first()
    .focus();
  await page.keyboard.press("Control+c");
  await expect.poll(async () => (await planner.copiedText()).split("\n")).toHaveLength(2);
  expect(await planner.copiedText()).toMatch(/^Sortie\t/);
});

test("every chart can be saved as a picture that stands by itself, light whatever the window wears", async ({
  planner,
}) => {
  const { page } = planner;
  const main = page.getByRole("main");
  await planner.choose("view.dark");
  const seen: string[] = [];
  const check = (svg: string, title: string): void => {
    const { texts, marks, ground, tags, outside } = readSvg(svg);
    const said = texts.join(" ");
    for (const word of title.split(" ")) expect(said).toContain(word);
    expect(said).toMatch(/plan case .+ as of \d{4}-\d\d-\d\d/);
    expect(marks, title).toBeGreaterThan(5);
    expect(ground).toBe("#ffffff");
    expect(outside).toEqual([]);
    for (const tag of ["script", "image", "foreignObject", "style"]) expect(tags.has(tag)).toBe(false);
    expect(svg).not.toMatch(/NaN|undefined|oklch/);
    seen.push(title);
  };

  // The timeline: all of it from its button; one level chart from the menu at the chart.
  check(
    await planner.savedText(async () => {
      await main.getByRole("button", { name: "Copy or save" }).click();
      await page.getByRole("menuitem", { name: "Save chart as SVG…" }).click();
    }),
    "Tarn: flights, sorties and levels",
  );
  const level = page.getByRole("grid", { name: "Timeline" }).getByRole("gridcell", { name: /^Hydrogen from/ });
  const levelSvg = await planner.savedText(async () => {
    await level.focus();
    await page.keyboard.press("Shift+F10");
    await page.getByRole("menuitem", { name: "Save chart as SVG…" }).click();
  });
  check(levelSvg, "Hydrogen at Tarn");
  const { texts } = readSvg(levelSvg);
  expect(texts.join(" ")).toMatch(/maximum fill .*\u202f(?:t|kg)/);
  expect(texts.some((text) => text.startsWith("Oxygen"))).toBe(false);

  const shown = { "view.craft": /Mass by leg/, "view.depots": /Loss rates/, "view.losses": /Loss by cause/ } as const;
  for (const [action, awaited] of Object.entries(shown) as [keyof typeof shown, RegExp][]) {
    await planner.choose(action);
    await expect(main.getByRole("button", { name: awaited })).toBeAttached();
    await settled(page);
    const buttons = main.getByRole("button", { name: /^Copy or save the chart: / });
    const names = await buttons.evaluateAll((nodes) => nodes.map((node) => node.getAttribute("aria-label") ?? ""));
    for (const name of names) {
      const svg = await planner.savedText(async () => {
        await main.getByRole("button", { name, exact: true }).focus();
        await page.keyboard.press("Enter");
        await page.getByRole("menuitem", { name: "Save chart as SVG…" }).press("Enter");
      });
      check(svg, name.replace("Copy or save the chart: ", ""));
    }
  }
  expect(seen.length).toBeGreaterThanOrEqual(5);

  // The chart last touched is the one that the Edit menu means; as a picture at twice its size.
  await planner.choose("chart.copy");
  await expect(page.getByText(`Copied as a picture: ${seen.at(-1) ?? ""}`)).toBeVisible();
  const size = await planner.copiedPicture();
  expect(size?.width).toBeGreaterThanOrEqual(2 * 640);
});
