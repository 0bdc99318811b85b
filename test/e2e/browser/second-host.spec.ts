/** Two browser hosts over one ledger: the second may look, says who holds it, and changes nothing. */
import { join } from "node:path";
import { expect, test } from "../harness/test.ts";
import { startInBrowser } from "../harness/browser-start.ts";
import { standing } from "../harness/timeline.ts";

test("a second host opens the ledger read-only and says why", async ({ planner, home, ourBrowser }) => {
  await expect(standing(planner.page)).toBeVisible();
  const ledger = join(home, "Tarn demonstration.coldstock");
  const second = await startInBrowser(await ourBrowser(), { home, ledger });
  try {
    await expect(second.page.getByRole("contentinfo")).toContainText(/read-only: it is open in process \d+/);
    await expect(second.page.getByRole("button", { name: "Add flight…" })).toBeVisible();
    await second.page.keyboard.press("Control+g");
    await expect(second.page.getByRole("dialog")).toBeHidden();
  } finally {
    await second.close();
  }
});
