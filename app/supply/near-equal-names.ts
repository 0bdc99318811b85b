/** Names that differ in nothing that a reader sees, or in case, spaces and dashes only. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { PlanFinding } from "./answer.ts";

type Kind = Extract<PlanFinding, { kind: "near-equal names" }>["of"];

/** What is left of a name once case, accents of form, spaces, dashes, dots and leading zeros of numbers are gone. */
export const bareName = (name: string): string =>
  name
    .normalize("NFKC")
    .toLowerCase()
    .replaceAll(/[\s\p{Pd}._\u2212\u200b-\u200d\ufeff]+/gu, "")
    .replaceAll(/(?<!\d)0+(?=\d)/g, "");

const among = (of: Kind, rows: readonly { readonly id: string; readonly name: string }[]): readonly PlanFinding[] => {
  const seen = new Map<string, { readonly id: string; readonly name: string }>();
  return rows.flatMap((row): readonly PlanFinding[] => {
    const key = bareName(row.name);
    const first = seen.get(key);
    if (first === undefined) {
      seen.set(key, row);
      return [];
    }
    return [{ kind: "near-equal names", of, ids: [first.id, row.id], names: [first.name, row.name] }];
  });
};

/** Each thing whose name another of its kind has already, flights and sorties that are cancelled left out. */
export const nearEqualNames = (plan: PlanSnapshot): readonly PlanFinding[] => [
  ...among(
    "flight",
    plan.flights.filter(({ status }) => status !== "cancelled"),
  ),
  ...among(
    "sortie",
    plan.sorties.filter(({ status }) => status !== "cancelled"),
  ),
  ...among("craft", plan.craft),
  ...among("tank", plan.tanks),
  ...among("depot", plan.depots),
];
