/**
 * What differs between two plan cases: flights and sorties added, removed, moved or changed, matched by their keys; what
 * campaigns and loss periods say. The one comparison: the window and the report write what it finds.
 */
import { formatInstant, formatSpan } from "../format/instant.ts";
import { formatMass } from "../format/mass.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Flight } from "../entity/flight.ts";
import type { Sortie } from "../entity/sortie.ts";
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

const shift = (what: string, before: number, after: number): string => {
  const span = formatSpan(Math.abs(after - before));
  return `${what} ${formatInstant(after)} instead of ${formatInstant(before)}, ${span} ${after > before ? "later" : "earlier"}`;
};

const loadWords = (plan: PlanSnapshot, loads: Flight["loads"]): string =>
  loads
    .toSorted((a, b) => a.propellantId.localeCompare(b.propellantId))
    .map(({ propellantId, loadedKg }) => {
      const name = plan.propellants.find(({ id }) => id === propellantId)?.name.toLowerCase() ?? propellantId;
      return `${formatMass(loadedKg)} ${name}`;
    })
    .join(", ") || "nothing";

/** The same for the same loads, to the last digit: words are rounded. */
const loadsKey = (loads: Flight["loads"]): string =>
  JSON.stringify(
    loads
      .filter(({ loadedKg }) => loadedKg > 0)
      .toSorted((a, b) => (a.propellantId < b.propellantId ? -1 : 1))
      .map(({ propellantId, loadedKg }) => [propellantId, loadedKg]),
  );

const flightChanges = (plan: PlanSnapshot, before: Flight, after: Flight): readonly string[] => {
  const words: string[] = [];
  if (before.departAt !== after.departAt) words.push(shift("departs", before.departAt, after.departAt));
  // An arrival that moves along with its departure goes without saying.
  if (before.arriveAt - before.departAt !== after.arriveAt - after.departAt)
    words.push(shift("arrives", before.arriveAt, after.arriveAt));
  if (loadsKey(before.loads) !== loadsKey(after.loads))
    words.push(`loads ${loadWords(plan, after.loads)} instead of ${loadWords(plan, before.loads)}`);
  if (before.craftId !== after.craftId) words.push(`flown by ${nameIn(plan.craft, after.craftId)}`);
  if (before.depotId !== after.depotId) words.push(`goes to ${nameIn(plan.depots, after.depotId)}`);
  if (JSON.stringify(before.origin) !== JSON.stringify(after.origin)) words.push("has another origin");
  if (before.berthDays !== after.berthDays) words.push(`stays ${after.berthDays} days instead of ${before.berthDays}`);
  if (before.overflow !== after.overflow)
    words.push(after.overflow === "vent" ? "vents what does not fit" : "keeps aboard what does not fit");
  if (before.status !== after.status) words.push(`is ${after.status} instead of ${before.status}`);
  return words;
};

const sortieChanges = (plan: PlanSnapshot, before: Sortie, after: Sortie): readonly string[] => {
  const words: string[] = [];
  if (before.loadAt !== after.loadAt) words.push(shift("loads", before.loadAt, after.loadAt));
  if (before.returnAt - before.loadAt !== after.returnAt - after.loadAt)
    words.push(shift("returns", before.returnAt, after.returnAt));
  if (JSON.stringify(before.demand) !== JSON.stringify(after.demand)) words.push("needs another load");
  if (before.landerId !== after.landerId) words.push(`flown by ${nameIn(plan.craft, after.landerId)}`);
  if (before.depotId !== after.depotId) words.push(`loads at ${nameIn(plan.depots, after.depotId)}`);
  if (before.status !== after.status) words.push(`is ${after.status} instead of ${before.status}`);
  return words;
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
  const put = (words: string): void =>
    void own.push({ kind: "planCase", id: planCase.id, name: planCase.name, change: "changed", words, at: -Infinity });
  if (before.planCase.shortPolicy !== planCase.shortPolicy)
    put(planCase.shortPolicy === "wait" ? "a short sortie waits" : "a short sortie stands down");
  if (before.planCase.horizonAt !== planCase.horizonAt)
    put(shift("the forecast ends", before.planCase.horizonAt, planCase.horizonAt));
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
      (a, b) => flightChanges(after, a, b),
    ),
    ...differencesOf(
      "sortie",
      before.sorties,
      after.sorties,
      ({ loadAt }) => loadAt,
      (a, b) => sortieChanges(after, a, b),
    ),
  ].sort((a, b) => a.at - b.at);
};
