/** A forecast that does not add up says so in the window, where its verdict would stand; a sound one shows its verdict. */
import "../with-dom.ts";
import { render, screen } from "@testing-library/react";
import { expect, it } from "vitest";
import { demoBeck } from "../../../app/demo/beck.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { glance } from "../../../app/supply/glance.ts";
import { VerdictLine } from "../../../renderer/supply/verdict-line.tsx";
import { siteWith } from "../../app/merge/sites.ts";

const site = siteWith("Beck", demoBeck());
const { plan } = planView(site.store, site.store.entities().planCase[0]!.id);
const sound = forecast(plan);

it("stands in place of the verdict", () => {
  const balances = sound.balances.map((row, n) => (n === 0 ? { ...row, closingKg: row.closingKg - 40 } : row));
  const { rerender } = render(<VerdictLine verdict={glance(plan, { ...sound, balances }).verdict} />);
  expect(screen.getByLabelText("Verdict").textContent).toMatch(
    /^No verdict The forecast does not balance: 40\skg of \w+ /,
  );
  rerender(<VerdictLine verdict={glance(plan, sound).verdict} />);
  expect(screen.getByLabelText("Verdict").textContent).not.toMatch(/balance/);
});
