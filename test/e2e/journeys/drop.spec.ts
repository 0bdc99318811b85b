/** Files dropped on the window: said before what will happen, opened, shown, or refused in words; never left for. */
import { copyFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { dragFiles } from "../harness/drag-file.ts";
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

test("a ledger is opened, by a question, and files that cannot be taken are refused in words", async ({
  planner,
  home,
}) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  const address = page.url();
  const pdf = join(home, "notes.pdf");
  writeFileSync(pdf, "%PDF-1.7\n");
  const dropAll = async (...paths: string[]): Promise<void> => {
    await (await dragFiles(page, paths)).drop();
  };

  const held = await dragFiles(page, [pdf]);
  await expect(page.getByText("Drop the file")).toBeVisible();
  // The driver can hold and drop, and not give up.
  await page.evaluate(() => document.body.dispatchEvent(new DragEvent("dragleave", { bubbles: true })));
  await expect(page.getByText("Drop the file")).toBeHidden();

  await held.drop();
  await expect(page.getByText(/notes\.pdf is a \.pdf file, which is not read here\. Drop a ledger/)).toBeVisible();
  await dropAll(pdf, pdf);
  await expect(page.getByText(/These are 2 files.*Drop one at a time/).first()).toBeVisible();
  const wrong = join(home, "wrong.coldstock");
  writeFileSync(wrong, "This is no ledger.\n".repeat(20));
  await dropAll(wrong);
  await page.getByRole("dialog", { name: "wrong.coldstock" }).getByRole("button", { name: "Open ledger" }).click();
  await expect(page.getByText(/is not a ledger, or its beginning is damaged/)).toBeVisible();

  // The demonstration's file, while another is open: closed and whole.
  await planner.choose("file.demo.beck");
  await expect(page.getByRole("contentinfo")).toContainText("Beck demonstration.coldstock");
  const folder = readdirSync(home, { recursive: true }).map(String);
  const tarn = folder.find((name) => name.endsWith("Tarn demonstration.coldstock")) ?? "";
  copyFileSync(join(home, tarn), join(home, "dropped.coldstock"));
  await dropAll(join(home, "dropped.coldstock"));
  await page.getByRole("dialog", { name: "dropped.coldstock" }).getByRole("button", { name: "Open ledger" }).click();
  await expect(page.getByRole("contentinfo")).toContainText(/dropped( 2)?\.coldstock/);
  await expect(standing(page)).toHaveText(/4\s*supplied\s*1\s*short/);
  expect(page.url()).toBe(address);
});

test("rows are shown before they go in, with the file already chosen", async ({ planner, home }) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  const csv = join(home, "gauges.csv");
  writeFileSync(csv, "name,craft,from,to,arrives\nPackhorse 40,nobody,nowhere,Tarn,2031-09-01\n");
  await (await dragFiles(page, [csv])).drop();
  const dialog = page.getByRole("dialog", { name: /^Import/ });
  await expect(dialog).toContainText("gauges.csv");
});
