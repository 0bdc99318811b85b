/** A sortie's return follows how long its profile takes, unless it was stated otherwise. */
import type { Change, Entity, EntitySet } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";

type Rows = Pick<EntitySet, "craft" | "craftClass" | "profile">;
type Sortie = Entity<"sortie">;

/** A stated return differs by more; less is rounding of typed days. */
const SAME_DAYS = 0.05;

/** What a profile's stays take, days; burns last minutes and are not counted. */
export const profileDays = ({ steps }: Pick<Entity<"profile">, "steps">): number =>
  steps.reduce((sum, step) => (step.kind === "stay" ? sum + step.days : sum), 0);

/** How long a sortie is away by its profile or, without one, by the trip of its class; null: neither says. */
export const usualDaysAway = (rows: Rows, { demand, landerId }: Pick<Sortie, "demand" | "landerId">): number | null => {
  const profile = demand.kind === "profile" ? rows.profile.find(({ id }) => id === demand.profileId) : undefined;
  const classId = rows.craft.find(({ id }) => id === landerId)?.classId;
  const days =
    profile === undefined ? rows.craftClass.find(({ id }) => id === classId)?.tripDays : profileDays(profile);
  return days === undefined || days <= 0 ? null : days;
};

const daysAway = ({ loadAt, returnAt }: Pick<Sortie, "loadAt" | "returnAt">): number => (returnAt - loadAt) / DAY_MS;

const isAbout = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_DAYS;

/**
 * The sortie with its return where its new demand has it, if the return was where the old one had it and was not itself
 * changed. `before` and `after` are seen with the profiles of before and after.
 */
export const withReturnAlong = (rowsBefore: Rows, before: Sortie, rowsAfter: Rows, after: Sortie): Sortie => {
  const [was, is] = [usualDaysAway(rowsBefore, before), usualDaysAway(rowsAfter, after)];
  if (was === null || is === null || was === is || after.status === "departed" || after.status === "flown")
    return after;
  const isStated = !isAbout(daysAway(before), was) || !isAbout(daysAway(after), daysAway(before));
  return isStated ? after : { ...after, returnAt: after.loadAt + Math.round(is * DAY_MS) };
};

const laidOver = <R extends { readonly id: string }>(rows: readonly R[], put: readonly R[]): readonly R[] => [
  ...rows.filter(({ id }) => !put.some((each) => each.id === id)),
  ...put,
];

/**
 * Changes of an edit, with the returns that follow from them: of sorties whose demand is changed, and of all sorties, in
 * every plan case, that fly a profile whose length is changed. A return that was stated stays.
 */
export const withReturnsAlong = (entities: EntitySet, changes: readonly Change[]): readonly Change[] => {
  const profiles = changes.flatMap((change) =>
    change.op === "put" && change.kind === "profile" ? [change.value] : [],
  );
  const sorties = new Map(
    changes.flatMap((change) =>
      change.op === "put" && change.kind === "sortie" ? [[change.value.id, change.value]] : [],
    ),
  );
  if (profiles.length === 0 && sorties.size === 0) return changes;
  const after: Rows = { ...entities, profile: laidOver(entities.profile, profiles) };
  const along = (before: Sortie, value: Sortie): Sortie => withReturnAlong(entities, before, after, value);
  const changed = new Set(profiles.map(({ id }) => id));
  const before = new Map(entities.sortie.map((sortie) => [sortie.id, sortie]));
  const followers = entities.sortie.flatMap((sortie): Change[] => {
    if (sorties.has(sortie.id) || sortie.demand.kind !== "profile" || !changed.has(sortie.demand.profileId)) return [];
    const value = along(sortie, sortie);
    return value === sortie ? [] : [{ op: "put", kind: "sortie", value }];
  });
  const own = changes.map((change): Change => {
    if (change.op !== "put" || change.kind !== "sortie") return change;
    const was = before.get(change.value.id);
    return was === undefined ? change : { ...change, value: along(was, change.value) };
  });
  return [...own, ...followers];
};
