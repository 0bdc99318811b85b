/** What readings and closings wrote off at depots, from the journal: for loss by the month that it happened in. */
import type { LossBooking } from "../app/ledger/loss-booking.ts";
import type { Connection } from "./connection.ts";

/** Boil-off and unaccounted mass of depots, by the index of their accounts; entries taken back are left out. */
export const LOSS_POSTINGS = `SELECT p.entry_no AS entryNo, p.at, a.kind, a.owner_id AS depotId,
    a.propellant_id AS propellantId, sum(p.grams) AS grams
  FROM account a CROSS JOIN posting p ON p.account_no = a.no
    CROSS JOIN entry e ON e.no = p.entry_no
  WHERE a.kind IN ('boil-off', 'unaccounted') AND p.at > ?
    AND e.state = 'in force' AND e.kind IN ('reading', 'closing')
    AND EXISTS (SELECT 1 FROM depot d WHERE d.id = a.owner_id)
  GROUP BY p.entry_no, a.no`;

export const TANKS_OF_ENTRY = `SELECT DISTINCT t.id AS tankId, t.owner_id AS depotId, t.propellant_id AS propellantId
  FROM posting p JOIN account a ON a.no = p.account_no JOIN tank t ON t.id = a.owner_id
  WHERE p.entry_no = ? AND a.kind = 'tank' AND t.owner_kind = 'depot'`;

interface LossPosting {
  readonly entryNo: number;
  readonly at: number;
  readonly kind: "boil-off" | "unaccounted";
  readonly depotId: string;
  readonly propellantId: string;
  readonly grams: number;
}

interface TankOfEntry {
  readonly tankId: string;
  readonly depotId: string;
  readonly propellantId: string;
}

/** Bookings after an instant (exclusive), one for each entry, depot and propellant. */
export const readLossBookings = (db: Connection, afterAt: number): readonly LossBooking[] => {
  const rows = db.prepared(LOSS_POSTINGS).all(afterAt) as LossPosting[];
  const tanksOf = db.prepared(TANKS_OF_ENTRY);
  const groups = Map.groupBy(rows, (row) => `${row.entryNo} ${row.depotId} ${row.propellantId}`);
  return [...groups.values()].flatMap((group): LossBooking[] => {
    const [first] = group;
    if (first === undefined) return [];
    const { entryNo, at, depotId, propellantId } = first;
    const sum = (kind: LossPosting["kind"]): number =>
      group.reduce((all, row) => (row.kind === kind ? all + row.grams : all), 0);
    const tankIds = (tanksOf.all(entryNo) as TankOfEntry[])
      .filter((tank) => tank.depotId === depotId && tank.propellantId === propellantId)
      .map(({ tankId }) => tankId);
    return [
      { at, depotId, propellantId, boilOffGrams: sum("boil-off"), unaccountedGrams: sum("unaccounted"), tankIds },
    ];
  });
};
