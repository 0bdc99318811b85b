/** What a journal entry may name: accounts whose owners exist, and tanks that hold the propellant. */
import { PlanningError } from "../../ground/failure.ts";
import { kindWords } from "../change-line.ts";
import type { EntitySet } from "../../entity/entities.ts";
import { findEntity } from "../../entity/entity-index.ts";
import type { JournalEntry, Posting } from "../journal.ts";

const tankFault = (plan: EntitySet, { account, propellantId }: Posting): string | null => {
  const tank = findEntity(plan, "tank", account.ownerId);
  if (tank === null) return `There is no tank ${account.ownerId}.`;
  if (tank.propellantId === propellantId) return null;
  const held = findEntity(plan, "propellant", tank.propellantId)?.name ?? tank.propellantId;
  const given = findEntity(plan, "propellant", propellantId)?.name ?? propellantId;
  return `${tank.name} holds ${held}, not ${given}.`;
};

const ownerFault = (plan: EntitySet, posting: Posting): string | null => {
  const { kind, ownerId } = posting.account;
  switch (kind) {
    case "tank":
      return tankFault(plan, posting);
    case "source":
      return findEntity(plan, "source", ownerId) === null ? `There is no ${kindWords.source} ${ownerId}.` : null;
    case "transit":
      return plan.flight.some((row) => row.key === ownerId) || plan.sortie.some((row) => row.key === ownerId)
        ? null
        : `There is no flight or sortie with the key ${ownerId}.`;
    default:
      return findEntity(plan, "depot", ownerId) === null && findEntity(plan, "craft", ownerId) === null
        ? `There is no depot or craft ${ownerId}.`
        : null;
  }
};

/** Throws "refused" with the field below `place`. */
export const checkEntry = (plan: EntitySet, entry: JournalEntry, place: string): void => {
  entry.postings.forEach((posting, i) => {
    const field = `${place}.postings.${i}`;
    if (findEntity(plan, "propellant", posting.propellantId) === null)
      throw new PlanningError("refused", `There is no propellant ${posting.propellantId}.`, `${field}.propellantId`);
    const fault = ownerFault(plan, posting);
    if (fault !== null) throw new PlanningError("refused", fault, `${field}.account.ownerId`);
  });
};
