/** Rows of their plan that come along because records speak of them and this ledger lacks them: nothing else of it does. */
import { applyChanges } from "../entity/apply-changes.ts";
import type { Change, Entity, EntityKind, EntitySet } from "../entity/entities.ts";
import { findEntity } from "../entity/entity-index.ts";
import type { JournalEntry, Reading } from "../ledger/journal.ts";
import { referencesOf } from "../ledger/rules/reference.ts";

interface Wanted {
  readonly kind: EntityKind;
  readonly id: string;
}

/** Which rows a posting's account may belong to. */
const ownersOf = ({ postings }: JournalEntry): Wanted[] =>
  postings.flatMap(({ account: { kind, ownerId }, propellantId }): Wanted[] => {
    const propellant: Wanted = { kind: "propellant", id: propellantId };
    if (kind === "transit") return [propellant];
    if (kind === "tank") return [propellant, { kind: "tank", id: ownerId }];
    if (kind === "source") return [propellant, { kind: "source", id: ownerId }];
    return [propellant, { kind: "depot", id: ownerId }, { kind: "craft", id: ownerId }];
  });

/** The changes that bring these rows in with all that they refer to; rows that are here stay as they are. */
export const bringRows = (ours: EntitySet, theirs: EntitySet, wanted: readonly Wanted[]): readonly Change[] => {
  const brought = new Map<string, Change>();
  const bring = ({ kind, id }: Wanted): void => {
    const key = `${kind}/${id}`;
    const row: Entity<EntityKind> | null = findEntity(theirs, kind, id);
    if (brought.has(key) || row === null || findEntity(ours, kind, id) !== null) return;
    brought.set(key, { op: "put", kind, value: row } as Change);
    for (const reference of referencesOf(kind, row)) bring(reference);
  };
  for (const each of wanted) bring(each);
  return [...brought.values()];
};

/** A flight or sortie that only they have, in the plan cases that both have. */
const subjectRows = (ours: EntitySet, theirs: EntitySet, key: string): Wanted[] => {
  const cases = new Set(ours.planCase.map(({ id }) => id));
  return (["flight", "sortie"] as const).flatMap((kind) => {
    const rows: readonly { id: string; key: string; planCaseId: string }[] = theirs[kind];
    const here: readonly { key: string }[] = ours[kind];
    if (here.some((row) => row.key === key)) return [];
    return rows.filter((row) => row.key === key && cases.has(row.planCaseId)).map(({ id }) => ({ kind, id }));
  });
};

/** What these records and readings need. `keys`: of the flights and sorties that they speak of. */
export const rowsAlong = (
  ours: EntitySet,
  theirs: EntitySet,
  entries: readonly JournalEntry[],
  readings: readonly Reading[],
  keys: readonly string[],
): readonly Change[] => {
  const transits = entries.flatMap(({ postings }) =>
    postings.flatMap(({ account }) => (account.kind === "transit" ? [account.ownerId] : [])),
  );
  const subjects = [...new Set([...keys, ...transits])].flatMap((key) => subjectRows(ours, theirs, key));
  const changes = bringRows(ours, theirs, [
    ...entries.flatMap(ownersOf),
    ...readings.map(({ tankId }) => ({ kind: "tank" as const, id: tankId })),
    ...subjects,
  ]);
  return changes;
};

/** Ours with these changes; the same object where there are none. */
export const withChanges = (plan: EntitySet, changes: readonly Change[]): EntitySet =>
  changes.length === 0 ? plan : applyChanges(plan, changes);
