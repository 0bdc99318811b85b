/** What refers to what: every property that bears another row's id. */
import { type Entity, type EntityKind, type EntitySet, entityKinds } from "../../entity/entities.ts";
import { findEntity } from "../../entity/entity-index.ts";
import { kindWords } from "../change-line.ts";
import type { Fault } from "./rule.ts";

export interface Reference {
  readonly property: string;
  readonly kind: EntityKind;
  readonly id: string;
}

type Finder<K extends EntityKind> = (row: Entity<K>) => readonly (Reference | null)[];

const to = (property: string, kind: EntityKind, id: string | null): Reference | null =>
  id === null ? null : { property, kind, id };

const finders: { readonly [K in EntityKind]: Finder<K> } = {
  propellant: () => [],
  depot: () => [],
  source: () => [],
  craftClass: (row) =>
    row.propellants.map((line, i) => to(`propellants.${i}.propellantId`, "propellant", line.propellantId)),
  profile: (row) => [to("classId", "craftClass", row.classId)],
  craft: (row) => [to("classId", "craftClass", row.classId)],
  tank: (row) => [to("ownerId", row.ownerKind, row.ownerId), to("propellantId", "propellant", row.propellantId)],
  planCase: () => [],
  lossPeriod: (row) => [to("tankId", "tank", row.tankId), to("planCaseId", "planCase", row.planCaseId)],
  campaign: (row) => [to("planCaseId", "planCase", row.planCaseId)],
  flight: (row) => [
    to("planCaseId", "planCase", row.planCaseId),
    to("craftId", "craft", row.craftId),
    row.origin.kind === "source"
      ? to("origin.sourceId", "source", row.origin.sourceId)
      : to("origin.depotId", "depot", row.origin.depotId),
    to("depotId", "depot", row.depotId),
    ...row.loads.map((load, i) => to(`loads.${i}.propellantId`, "propellant", load.propellantId)),
  ],
  sortie: (row) => [
    to("planCaseId", "planCase", row.planCaseId),
    to("campaignId", "campaign", row.campaignId),
    to("landerId", "craft", row.landerId),
    to("depotId", "depot", row.depotId),
    ...(row.demand.kind === "stated"
      ? row.demand.lines.map((line, i) => to(`demand.lines.${i}.propellantId`, "propellant", line.propellantId))
      : []),
    row.demand.kind === "profile" ? to("demand.profileId", "profile", row.demand.profileId) : null,
  ],
  riskInput: ({ planCaseId, uncertainty: { of } }) => [
    to("planCaseId", "planCase", planCaseId),
    of.kind === "craft class" ? to("uncertainty.of.craftClassId", "craftClass", of.craftClassId) : null,
    of.kind === "flight" ? to("uncertainty.of.flightId", "flight", of.flightId) : null,
    of.kind === "sortie" ? to("uncertainty.of.sortieId", "sortie", of.sortieId) : null,
    of.kind === "tank" ? to("uncertainty.of.tankId", "tank", of.tankId) : null,
  ],
};

/** The rows that a row refers to. */
export const referencesOf = <K extends EntityKind>(kind: K, row: Entity<K>): readonly Reference[] =>
  finders[kind](row).filter((reference) => reference !== null);

/** References of a row to what is not there. */
export const danglingReferences = <K extends EntityKind>(kind: K, row: Entity<K>, plan: EntitySet): readonly Fault[] =>
  referencesOf(kind, row)
    .filter((reference) => findEntity(plan, reference.kind, reference.id) === null)
    .map(({ property, kind: other, id }) => ({ property, message: `There is no ${kindWords[other]} ${id}.` }));

/** The first row that still refers to one of these (`kind/id`), and to which; null: none does. */
export const firstReferrer = (
  plan: EntitySet,
  removed: ReadonlySet<string>,
): { readonly kind: EntityKind; readonly row: Entity<EntityKind>; readonly to: Reference } | null => {
  for (const kind of entityKinds)
    for (const row of plan[kind]) {
      const found = referencesOf(kind, row).find((reference) => removed.has(`${reference.kind}/${reference.id}`));
      if (found !== undefined) return { kind, row, to: found };
    }
  return null;
};
