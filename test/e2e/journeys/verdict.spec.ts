/** The verdict in the window: its word in the bar above every view, its reason at the head of the supply check. */
import { expect, test } from "../harness/test.ts";
import { standing } from "../harness/timeline.ts";

test("what breaks the plan is said in the bar and in the supply check, in the same word", async ({ planner }) => {
  const { page } = planner;
  await expect(standing(page)).toContainText("No-go");
  await planner.choose("view.supply");
  const verdict = page.getByLabel("Verdict", { exact: true });
  await expect(verdict).toHaveText(
    /^No-go \d+ of \d+ sorties cannot load as planned\. .*Sortie \d cannot load on .+ of hydrogen\./,
  );
});
