/** What most of the short sorties are short for: one propellant at one depot, or one lander that is away. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { SortieSupply } from "./answer.ts";

/** The cause of a short sortie in words that are the same for the same cause. */
const causeOf = (plan: PlanSnapshot, sortie: SortieSupply): string => {
  const row = plan.sorties.find(({ id }) => id === sortie.sortieId);
  const nameIn = (rows: readonly { readonly id: string; readonly name: string }[], id: string | undefined): string =>
    rows.find((each) => each.id === id)?.name ?? "";
  if (sortie.landerIsAway) return `${nameIn(plan.craft, row?.landerId)} being away`;
  const missing = sortie.lines
    .filter(({ missingKg }) => missingKg > 0)
    .toSorted((a, b) => b.missingKg / b.requiredKg - a.missingKg / a.requiredKg)[0];
  return `too little ${nameIn(plan.propellants, missing?.propellantId).toLowerCase()} at ${nameIn(plan.depots, row?.depotId)}`;
};

/**
 * "The common cause is too little hydrogen at Tarn (34 of 36)", by the propellant that is missing most relative to what is
 * required; of fewer than two short sorties, or of causes of which none holds for half of them, the empty text.
 */
export const commonCause = (plan: PlanSnapshot, short: readonly SortieSupply[]): string => {
  if (short.length < 2) return "";
  const counts = new Map<string, number>();
  for (const sortie of short) {
    const cause = causeOf(plan, sortie);
    counts.set(cause, (counts.get(cause) ?? 0) + 1);
  }
  const [cause, count] = [...counts].toSorted((a, b) => b[1] - a[1])[0] ?? ["", 0];
  if (count * 2 < short.length) return "";
  return `The common cause is ${cause}${count === short.length ? "" : ` (${count} of ${short.length})`}.`;
};
