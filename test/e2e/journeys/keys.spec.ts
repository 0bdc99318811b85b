/** The keys that a browser keeps for itself have others there; each host lists its own, and they do what the list says. */
import type { Page } from "@playwright/test";
import { actions } from "../../../app/contract/actions.ts";
import type { HostKind } from "../harness/planner.ts";
import { expect, test } from "../harness/test.ts";

const keysOf = (host: HostKind, id: (typeof actions)[number]["id"]): string => {
  const action = actions.find((each) => each.id === id);
  const keys = host === "browser" ? (action?.browserAccelerator ?? action?.accelerator) : action?.accelerator;
  if (keys === null || keys === undefined) throw new Error(`${id} has no keys`);
  return keys.replace("CmdOrCtrl", "Control");
};

const listed = (page: Page, words: string) =>
  page.getByRole("dialog", { name: "Keyboard shortcuts" }).getByRole("row").filter({ hasText: words });

test("keys open a new ledger, a new case, the tables and the report’s file; the list of keys says so", async ({
  planner,
}) => {
  const { page, host } = planner;
  await expect(page.getByRole("grid", { name: "Timeline" })).toBeVisible();
  await page.keyboard.press("Shift+F1");
  const keys = {
    "New ledger": "file.new",
    "New case from this one": "plan.newCase",
    "Timeline as a table": "view.table",
  } as const;
  for (const [words, id] of Object.entries(keys))
    await expect(listed(page, words).filter({ hasText: keysOf(host, id).replace("Control", "Ctrl") })).toHaveCount(1);
  await page.keyboard.press("Escape");
  await expect(page.getByRole("dialog")).toBeHidden();

  // While a dialog is there the keys of what lies behind it do nothing.
  const dialogs = { "file.new": /^New ledger/, "plan.newCase": /^New plan case/ } as const;
  for (const [id, name] of Object.entries(dialogs)) {
    await page.keyboard.press(keysOf(host, id as keyof typeof dialogs));
    await expect(page.getByRole("dialog", { name })).toBeVisible();
    await page.keyboard.press("Escape");
    await expect(page.getByRole("dialog")).toHaveCount(0);
  }
  await page.keyboard.press(keysOf(host, "view.table"));
  await expect(page.getByRole("grid", { name: "Flights" })).toBeVisible();
  await page.keyboard.press(keysOf(host, "view.table"));
  await expect(page.getByRole("grid", { name: "Timeline" })).toBeVisible();
  // Of the view that a plain key leads to.
  await page.keyboard.press("Control+8");
  await expect(page.getByRole("heading", { level: 1, name: "Reports" })).toBeVisible();
  const pdf = await planner.savedBytes(() => page.keyboard.press(keysOf(host, "report.pdf")));
  expect(pdf.subarray(0, 5).toString("latin1")).toBe("%PDF-");
});
