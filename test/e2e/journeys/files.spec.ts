/** Ledgers come and go: export and import, a second start, and coming back to where one was. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "../harness/test.ts";
import { dragBy, itemOf, standing } from "../harness/timeline.ts";

test("a ledger is exported, imported as a new one, and exported again to the byte", async ({ planner, home }) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  const first = await planner.savedText(() => planner.choose("file.export.json"));
  expect(JSON.parse(first)).toMatchObject({ format: "coldstock-ledger", isDemonstration: true });
  const exported = join(home, "exported.json");
  writeFileSync(exported, first);

  await planner.giveFileAndPlace(exported, join(home, "imported.coldstock"), () => planner.choose("file.import.json"));
  await expect(page.getByRole("contentinfo")).toContainText(/(imported|exported)\.coldstock/);
  await expect(standing(page)).toHaveText(/4\s*supplied\s*1\s*short/);
  const second = await planner.savedText(() => planner.choose("file.export.json"));
  expect(second).toBe(first);
});

test("a file that is no ledger is refused in words, and the ledger stays", async ({ planner, home }) => {
  const { page } = planner;
  await expect(standing(page)).toBeVisible();
  const wrong = join(home, "wrong.coldstock");
  writeFileSync(wrong, "This is no ledger.\n".repeat(20));
  await planner.giveFile(wrong, () => planner.choose("file.open"));
  await expect(page.getByText(/not a ledger/i).first()).toBeVisible();
  await expect(standing(page)).toHaveText(/4\s*supplied\s*1\s*short/);
});

test("what was changed is there after a new start, and can still be undone", async ({ start }) => {
  const before = await start();
  await expect(standing(before.page)).toHaveText(/1\s*short/);
  const flight = itemOf(before.page, "Packhorse 6");
  const words = await flight.getAttribute("aria-label");
  await dragBy(before.page, "Packhorse 6", 30);
  await expect(flight).not.toHaveAccessibleName(words ?? "");
  const moved = (await flight.getAttribute("aria-label")) ?? "";
  await before.close();

  const { page } = await start();
  await expect(itemOf(page, "Packhorse 6")).toHaveAccessibleName(moved);
  await page.getByRole("contentinfo").getByRole("button", { name: /^Undo/ }).click();
  await expect(itemOf(page, "Packhorse 6")).toHaveAccessibleName(words ?? "");
});
