/** Another site's records are looked at, decided one by one, brought in, and taken back by undo. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { twoSites } from "../harness/two-sites.ts";
import { dragFiles } from "../harness/drag-file.ts";
import type { Planner } from "../harness/planner.ts";
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

/** Our ledger opened as a new one; the path of theirs. */
const openOurs = async (planner: Planner, home: string): Promise<string> => {
  await expect(standing(planner.page)).toBeVisible();
  const { ours, theirs } = twoSites(await planner.savedText(() => planner.choose("file.export.json")));
  const [north, south] = [join(home, "north.json"), join(home, "south.json")];
  writeFileSync(north, ours);
  writeFileSync(south, theirs);
  await planner.giveFileAndPlace(north, join(home, "north.coldstock"), () => planner.choose("file.import.json"));
  await expect(planner.page.getByRole("contentinfo")).toContainText("north.coldstock");
  return south;
};

test("their records come in: the conflict is decided, the summary read, and undo takes all of it back", async ({
  planner,
  home,
}) => {
  const { page } = planner;
  const theirs = await openOurs(planner, home);
  const before = await planner.savedText(() => planner.choose("file.export.json"));

  await planner.choose("file.merge");
  const dialog = page.getByRole("dialog", { name: "Merge another ledger’s records" });
  await planner.giveFile(theirs, () => dialog.getByRole("button", { name: "Choose their ledger…" }).click());
  await expect(dialog.getByRole("heading", { name: /^Conflict 1 of 1: / })).toBeVisible();
  await expect(dialog.getByRole("region", { name: "Ours" })).toContainText("Recorded by north");
  await expect(dialog.getByRole("region", { name: "Theirs" })).toContainText("Recorded by south");
  const bring = dialog.getByRole("button", { name: "Bring the records in" });
  await expect(bring).toBeDisabled();
  await dialog.getByText("Take theirs").click();
  await dialog.getByRole("button", { name: "To the summary" }).click();
  await expect(dialog.getByText("2 journal entries of theirs are written.")).toBeVisible();
  await expect(dialog.getByText("1 entry of ours is reversed.")).toBeVisible();
  await bring.click();
  await expect(dialog).toBeHidden();

  const merged = JSON.parse(await planner.savedText(() => planner.choose("file.export.json"))) as {
    entries: { author: string; kind: string; note: string }[];
    readings: { id: string; isWithdrawn: boolean }[];
  };
  expect(merged.entries.slice(-3).map(({ author, kind }) => [author === "south", kind])).toEqual([
    [false, "reversal"],
    [true, "vent"],
    [true, "reading"],
  ]);
  expect(merged.entries.at(-3)?.note).toMatch(/^merged from south\.json, programme .+, records of south$/);
  expect(merged.readings.filter(({ id }) => id.startsWith("gauge-"))).toMatchObject([
    { id: "gauge-north", isWithdrawn: true },
    { id: "gauge-south", isWithdrawn: false },
  ]);
  await page
    .getByRole("contentinfo")
    .getByRole("button", { name: /^Undo Merge records of south\.json/ })
    .click();
  await expect(page.getByRole("contentinfo").getByRole("button", { name: /^Undo/ })).toBeDisabled();
  const after = JSON.parse(await planner.savedText(() => planner.choose("file.export.json"))) as { readings: unknown };
  // The booking of ours was taken back and written again: it stands under another id.
  const measured = (readings: unknown) => (readings as { entryId: unknown }[]).map((row) => ({ ...row, entryId: 0 }));
  expect(measured(after.readings)).toEqual(measured((JSON.parse(before) as { readings: unknown }).readings));
});

test("a dropped document leads to its records, by a question; the window stays where it is", async ({
  planner,
  home,
}) => {
  const { page } = planner;
  const theirs = await openOurs(planner, home);
  const address = page.url();
  const drag = await dragFiles(page, [theirs]);
  await expect(page.getByText("Drop the file")).toBeVisible();
  await drag.drop();
  const question = page.getByRole("dialog", { name: "south.json" });
  await question.getByText(/^Merge its records into/).click();
  await question.getByRole("button", { name: "Look at its records" }).click();
  await expect(page.getByRole("heading", { name: /^Conflict 1 of 1: / })).toBeVisible();
  await page.keyboard.press("Escape");
  expect(page.url()).toBe(address);
});
