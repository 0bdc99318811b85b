/** A forecast that does not add up gives no verdict, in any form. */
import { describe, expect, it } from "vitest";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { demoBeck } from "../../../app/demo/beck.ts";
import { type Forecast, forecast } from "../../../app/forecast/forecast.ts";
import { unbalanced } from "../../../app/forecast/balance.ts";
import { finishReport } from "../../../app/report/finish.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { verdictBlocks } from "../../../app/report/section/verdict.ts";
import { check } from "../../../app/supply/check.ts";
import { glance } from "../../../app/supply/glance.ts";
import { supplyText } from "../../../main/cli/supply-text.ts";
import { verdictTone } from "../../../renderer/widgets/verdict-tone.ts";
import { siteWith } from "../merge/sites.ts";
import { exampleContext } from "../report/example.ts";

const site = siteWith("Beck", demoBeck());
const view = planView(site.store, site.store.entities().planCase[0]!.id);
const { plan } = view;
const sound = forecast(plan);

/** The same forecast with so many kg in its first tank at the end that came from nowhere. */
const doctored = (kg: number): Forecast => ({
  ...sound,
  balances: sound.balances.map((row, n) => (n === 0 ? { ...row, closingKg: row.closingKg + kg } : row)),
});

describe("the balance of a forecast", () => {
  it("closes for a sound one", () => {
    expect(unbalanced(sound.balances)).toEqual([]);
    expect(glance(plan, sound).verdict.word).not.toBe("No verdict");
  });

  it.each([511, -511, 2e-6])("is told where %d kg are wrong", (kg) => {
    const [found] = unbalanced(doctored(kg).balances);
    expect(found?.massKg).toBeCloseTo(kg, 8);
  });

  it("is told where a mass is not a number", () => {
    expect(unbalanced(doctored(NaN).balances)).toHaveLength(1);
    expect(glance(plan, doctored(NaN)).verdict.sentence).toMatch(/is not a number/);
  });

  it("stands in place of the verdict on screen, on paper, in the calendar and on the command line, and breaks it", () => {
    const seen = glance(plan, doctored(511));
    expect(seen.verdict.word).toBe("No verdict");
    expect(seen.verdict.sentence).toMatch(/^The forecast does not balance: 511\skg of \w+ come from nowhere\./);
    expect(seen.verdict.breaks).toContain(seen.verdict.sentence);
    expect(verdictTone(seen.verdict)).toBe("no-go");
    const answer = { ...check(plan), ...seen, holds: seen.verdict.breaks.length === 0 };
    expect(answer.holds).toBe(false);
    const ledger = { fileName: "beck.coldstock" } as LedgerInfo;
    expect(supplyText(ledger, plan, answer, null)).toContain(`\nNo verdict: ${seen.verdict.sentence}\n`);
    const context = exampleContext();
    const { verdict, holds } = answer;
    const main = { ...context.main, supply: { ...context.main.supply, verdict, holds } };
    const [block] = verdictBlocks({ ...context, risk: null, main });
    expect(block).toMatchObject({ kind: "verdict", holds: false, word: "No verdict" });
    const { calendar } = finishReport({ ...context, risk: null, main, fitQuestions: [] }, "0".repeat(64));
    const unfolded = calendar.replaceAll(/\r\n[ \t]/g, "");
    expect(unfolded).toMatch(/X-WR-CALDESC:No verdict: The forecast does not balance: 511/);
    expect(unfolded).toMatch(/SUMMARY:Sortie \d+: no verdict/);
    expect(unfolded).not.toContain("short of propellant");
    expect(JSON.parse(JSON.stringify(answer.findings))).toContainEqual({
      kind: "does not balance",
      propellantId: sound.balances[0]!.propellantId,
      massKg: expect.closeTo(511, 6) as number,
    });
  });
});
