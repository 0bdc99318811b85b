/** Gauge readings that cannot be: a slip of the pen, a wrong tank or a wrong unit. They are refused, not taken in silence. */
import { formatMass } from "../format/mass.ts";
import type { EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { Reading } from "./journal.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { formatMinute } from "../format/time.ts";

/**
 * Why an instant lies too far ahead for anything to have happened then, a sentence: later than `graceDays` after the end of
 * every plan case, as where the year was mistyped; null: it does not.
 */
export const farAhead = (entities: EntitySet, at: number, graceDays: number): string | null => {
  const endsAt = entities.planCase.reduce((last, { horizonAt }) => Math.max(last, horizonAt), -Infinity);
  return endsAt > -Infinity && at > endsAt + graceDays * DAY_MS
    ? `${formatMinute(at)} lies after the end of every plan case, ${formatMinute(endsAt)}: is its year right?`
    : null;
};

/**
 * Why a reading cannot be, a sentence; null: it can. More than the whole volume holds at the stated density of the liquid is
 * no level; before the books of its tank open there is nothing to compare it with (`openedAt` null: they are not open).
 */
export const impossibleReading = (
  entities: EntitySet,
  { tankId, at, massKg }: Pick<Reading, "tankId" | "at" | "massKg">,
  openedAt: number | null,
): { readonly field: "massKg" | "at"; readonly reason: string } | null => {
  const tank = findEntity(entities, "tank", tankId);
  if (tank === null) return null;
  const density = findEntity(entities, "propellant", tank.propellantId)?.densityKgPerM3 ?? 0;
  const wholeKg = (tank.volumeM3 ?? 0) * density;
  if (wholeKg > 0 && massKg > wholeKg)
    return {
      field: "massKg",
      reason: `${tank.name} holds ${formatMass(wholeKg)} with its whole volume full; ${formatMass(massKg)} cannot be in it.`,
    };
  if (openedAt !== null && at < openedAt)
    return {
      field: "at",
      reason: `The books of ${tank.name} open on ${formatMinute(openedAt)}; ${formatMinute(at)} lies before.`,
    };
  const ahead = farAhead(entities, at, 0);
  return ahead === null ? null : { field: "at", reason: ahead };
};
