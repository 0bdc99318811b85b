/**
 * What differs between two plan cases: flights and sorties added, removed, moved or changed, matched by their keys; what
 * campaigns and loss periods say. The one comparison: the window and the report write what it finds.
 */
import { formatInstant } from "../format/instant.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { fieldDifferences } from "../fields/differences.ts";
import type { NameOf } from "../fields/field.ts";
import { flightFields } from "../fields/flight-fields.ts";
import { movedWords } from "../fields/moved-words.ts";
import { sortieFields } from "../fields/sortie-fields.ts";
import { nameIn } from "../words/named.ts";

export interface Difference {
  /** The row's kind and id in the plan that has it: the other's, if it was added there. */
  readonly kind: "flight" | "sortie" | "planCase";
  readonly id: string;
  readonly name: string;
  readonly change: "added" | "removed" | "moved" | "changed";
  /** "departs 2031-02-24 instead of 2031-02-20, 4 days later" */
  readonly words: string;
  /** When it is, for the order of the list. */
  readonly at: number;
}

/** What is told of a flight or sortie before all else. */
const FLIGHT_FIRST = ["departAt", "arriveAt", "loads", "craftId", "depotId", "origin"] as const;
const SORTIE_FIRST = ["loadAt", "returnAt", "demand", "landerId"] as const;

const namesIn = (plan: PlanSnapshot): NameOf => {
  const rows = {
    craft: plan.craft,
    depot: plan.depots,
    campaign: plan.campaigns,
    source: plan.sources,
    propellant: plan.propellants,
  };
  return (kind, id) => nameIn(rows[kind], id);
};

interface Keyed {
  readonly id: string;
  readonly key: string;
  readonly name: string;
}

const differencesOf = <R extends Keyed>(
  kind: "flight" | "sortie",
  before: readonly R[],
  after: readonly R[],
  at: (row: R) => number,
  changes: (before: R, after: R) => readonly string[],
): readonly Difference[] => {
  const known = new Map(before.map((row) => [row.key, row]));
  const kept = new Set(after.map(({ key }) => key));
  const found: Difference[] = [];
  for (const row of after) {
    const old = known.get(row.key);
    if (old === undefined) {
      const words = `only here, on ${formatInstant(at(row))}`;
      found.push({ kind, id: row.id, name: row.name, change: "added", words, at: at(row) });
      continue;
    }
    const words = changes(old, row);
    if (words.length === 0) continue;
    const change = at(old) === at(row) ? "changed" : "moved";
    found.push({ kind, id: row.id, name: row.name, change, words: words.join("; "), at: at(row) });
  }
  for (const row of before)
    if (!kept.has(row.key)) {
      const words = `not here; there on ${formatInstant(at(row))}`;
      found.push({ kind, id: row.id, name: row.name, change: "removed", words, at: at(row) });
    }
  return found;
};

/** What the loss periods of a plan say, whatever their ids. */
const periodsKey = ({ lossPeriods }: PlanSnapshot): string =>
  JSON.stringify(
    lossPeriods
      .map(({ tankId, fromAt, untilAt, basis }) => JSON.stringify([tankId, fromAt, untilAt, basis]))
      .toSorted(),
  );

/** How `after` differs from `before`, in order of time. Notes and names alone make no difference. */
export const comparePlans = (before: PlanSnapshot, after: PlanSnapshot): readonly Difference[] => {
  const own: Difference[] = [];
  const { planCase } = after;
  const nameOf = namesIn(after);
  const put = (words: string): void =>
    void own.push({ kind: "planCase", id: planCase.id, name: planCase.name, change: "changed", words, at: -Infinity });
  if (before.planCase.shortPolicy !== planCase.shortPolicy)
    put(planCase.shortPolicy === "wait" ? "a short sortie waits" : "a short sortie stands down");
  if (before.planCase.horizonAt !== planCase.horizonAt)
    put(movedWords("the forecast ends", before.planCase.horizonAt, planCase.horizonAt));
  for (const campaign of after.campaigns) {
    const old = before.campaigns.find(({ key }) => key === campaign.key);
    if (old !== undefined && old.holdLimitDays !== campaign.holdLimitDays)
      put(`sorties of ${campaign.name} wait ${campaign.holdLimitDays} days at most instead of ${old.holdLimitDays}`);
  }
  if (periodsKey(before) !== periodsKey(after)) put("loss periods of tanks differ");
  return [
    ...own,
    ...differencesOf(
      "flight",
      before.flights,
      after.flights,
      ({ departAt }) => departAt,
      (a, b) => fieldDifferences(flightFields, FLIGHT_FIRST, a, b, nameOf),
    ),
    ...differencesOf(
      "sortie",
      before.sorties,
      after.sorties,
      ({ loadAt }) => loadAt,
      (a, b) => fieldDifferences(sortieFields, SORTIE_FIRST, a, b, nameOf),
    ),
  ].sort((a, b) => a.at - b.at);
};
