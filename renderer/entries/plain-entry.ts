/** The postings of an opening level, a transfer between tanks, a vent: each balanced in whole grams. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { type Posting, toGrams } from "../../app/ledger/journal.ts";

export type PlainKind = "opening" | "transfer" | "vent";

export interface PlainEntry {
  readonly kind: PlainKind;
  readonly tank: Tank;
  /** Into this tank (transfer). */
  readonly toTank: Tank | null;
  /** Where an opening level came from. */
  readonly sourceId: string | null;
  readonly massKg: number;
}

/** null: something is missing, or nothing moves. */
export const plainPostings = ({ kind, tank, toTank, sourceId, massKg }: PlainEntry): readonly Posting[] | null => {
  const grams = toGrams(massKg);
  const line = (account: Posting["account"], sign: 1 | -1): Posting => ({
    account,
    propellantId: tank.propellantId,
    grams: sign * grams,
  });
  if (grams === 0) return null;
  switch (kind) {
    case "opening":
      if (sourceId === null) return null;
      return [line({ kind: "tank", ownerId: tank.id }, 1), line({ kind: "source", ownerId: sourceId }, -1)];
    case "transfer":
      if (toTank === null || toTank.id === tank.id || toTank.propellantId !== tank.propellantId) return null;
      return [line({ kind: "tank", ownerId: tank.id }, -1), line({ kind: "tank", ownerId: toTank.id }, 1)];
    case "vent":
      return [line({ kind: "tank", ownerId: tank.id }, -1), line({ kind: "vented", ownerId: tank.ownerId }, 1)];
    default:
      return missingCase(kind);
  }
};
