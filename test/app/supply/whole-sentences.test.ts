/** Sentences that counts and kinds are put into stay sentences: one of a thing is not "all of 1", and nothing is kept "aboards". */
import { expect, it } from "vitest";
import { supplyText } from "../../../main/cli/supply-text.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { check } from "../../../app/supply/check.ts";
import { flight, type SmallPlan, smallPlan, sortie, tank } from "../forecast/small-plan.ts";

const BROKEN =
  /keep aboards|\bvents aboard|no sorties? (?:is|are) (?:short|thin)|\bAll of 1\b|\b1 (?:sorties|flights|records|days|conditions)\b|\b1 of 1\b|short by (?:0|its)\b|short by {2}/i;

const sortiesOf = (count: number, kg: number) =>
  Array.from({ length: count }, (_, n) => sortie(`Sortie ${n + 1}`, 30 + 20 * n, kg));
const overfull = (overflow: "keep aboard" | "vent", count: number) =>
  Array.from({ length: count }, (_, n) => flight(`F${n}`, 5 + n, 10 + n, 9000, { craftId: `hull-${n}`, overflow }));

const plans: readonly (readonly [string, SmallPlan])[] = [1, 2, 5].flatMap((count) => [
  [`${count} supplied`, { opening: { a: 60_000 }, sorties: sortiesOf(count, 6000) }] as const,
  [
    `${count} thin`,
    { opening: { a: 6500 * count }, tanks: [tank("a", { reserveKg: 4000 })], sorties: sortiesOf(count, 6000) },
  ] as const,
  [`${count} short`, { opening: { a: 1000 }, sorties: sortiesOf(count, 6000) }] as const,
  ...(["keep aboard", "vent"] as const).map(
    (overflow) =>
      [
        `${count} that ${overflow}`,
        {
          opening: { a: 8000 },
          tanks: [tank("a", { maximumFillKg: 10_000 })],
          flights: overfull(overflow, count),
          sorties: sortiesOf(1, 2000),
        },
      ] as const,
  ),
]);

it.each(plans)("with %s", (_what, wanted) => {
  const plan = smallPlan(wanted);
  const answer = check(plan);
  const text = supplyText({ fileName: "a.coldstock" } as LedgerInfo, plan, answer, null);
  for (const sentence of [answer.verdict.sentence, ...text.split("\n")]) expect(sentence).not.toMatch(BROKEN);
});
