/** Whether two ledgers can be merged at all: the same programme, and one beginning. */
import { PlanningError } from "../ground/failure.ts";
import type { LedgerDocument } from "../ledger/ledger-view.ts";

const shareRecord = (ours: LedgerDocument, theirs: LedgerDocument): boolean => {
  const known = new Set(ours.entries.map(({ id, kind, at }) => `${id}/${kind}/${at}`));
  return theirs.entries.some(({ id, kind, at }) => known.has(`${id}/${kind}/${at}`));
};

/** A copy made before the first record: a plan case in common, and a tank that is the same to the letter. */
const sharePlan = (ours: LedgerDocument, theirs: LedgerDocument): boolean => {
  const cases = new Set(ours.entities.planCase.map(({ id }) => id));
  const tanks = new Set(ours.entities.tank.map((row) => JSON.stringify(row)));
  return (
    theirs.entities.planCase.some(({ id }) => cases.has(id)) &&
    theirs.entities.tank.some((row) => tanks.has(JSON.stringify(row)))
  );
};

/** Throws "refused", saying why, for another programme's ledger or one that did not start as a copy. */
export const refuseStranger = (ours: LedgerDocument, theirs: LedgerDocument, fileName: string): void => {
  if (ours.programme !== theirs.programme)
    throw new PlanningError(
      "refused",
      `${fileName} is a ledger of the programme “${theirs.programme}”; this one is of “${ours.programme}”. Records are merged within one programme.`,
    );
  if (!shareRecord(ours, theirs) && !sharePlan(ours, theirs))
    throw new PlanningError(
      "refused",
      `${fileName} and this ledger have no record and no plan in common: neither started as a copy of the other, so there is nothing by which to tell what is new. Import it as a ledger of its own instead.`,
    );
};
