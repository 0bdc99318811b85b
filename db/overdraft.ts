/** No tank of the books may ever hold less than nothing. */
import { PlanningError } from "../app/ground/failure.ts";
import { type JournalEntry, toKg } from "../app/ledger/journal.ts";
import { formatMinute } from "../app/format/time.ts";
import type { Connection } from "./connection.ts";

/** The lowest booked level at the end of an instant, from one on: by instants, since what happens at one is one. */
export const LOWEST_FROM = `SELECT p.at AS at, a.balance_grams - coalesce(
    (SELECT sum(later.grams) FROM posting later WHERE later.account_no = a.no AND later.at > @fromAt), 0)
    + sum(CASE WHEN p.at > @fromAt THEN sum(p.grams) ELSE 0 END) OVER (ORDER BY p.at) AS grams
  FROM account a JOIN posting p ON p.account_no = a.no AND p.at >= @fromAt
  WHERE a.kind = 'tank' AND a.owner_id = @tankId GROUP BY p.at ORDER BY grams LIMIT 1`;

/** Throws "refused" if a tank that these entries touch would have been below empty from the earliest of them on. */
export const refuseOverdraft = (
  db: Connection,
  touched: readonly JournalEntry[],
  nameOf: (tankId: string) => string,
): void => {
  const earliest = new Map<string, number>();
  for (const { at, postings } of touched)
    for (const { account } of postings)
      if (account.kind === "tank") earliest.set(account.ownerId, Math.min(at, earliest.get(account.ownerId) ?? at));
  for (const [tankId, fromAt] of earliest) {
    const lowest = db.prepared(LOWEST_FROM).get({ tankId, fromAt }) as { at: number; grams: number } | undefined;
    if (lowest !== undefined && lowest.grams < 0)
      throw new PlanningError(
        "refused",
        `${nameOf(tankId)} would hold ${toKg(lowest.grams)} kg in the books on ${formatMinute(lowest.at)}: more is taken out than is there. Record a gauge reading before it, or correct the mass.`,
        "entries",
      );
  }
};
