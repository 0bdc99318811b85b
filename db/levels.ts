/** What the books say of the tanks: the last stated level, the movements, a balance. All from indexes. */
import { PlanningError } from "../app/contract/failure.ts";
import { toKg } from "../app/ledger/journal.ts";
import type { EntryKind } from "../app/ledger/journal.ts";
import type { StatedLevel, TankMovement } from "../app/ledger/store.ts";
import type { Connection } from "./connection.ts";

interface TankAccount {
  readonly no: number;
  readonly tankId: string;
  readonly balance: number;
}

const tankAccounts = (db: Connection): readonly TankAccount[] =>
  db
    .prepared(
      "SELECT no, owner_id AS tankId, balance_grams AS balance FROM account WHERE kind = 'tank' ORDER BY owner_id",
    )
    .all() as TankAccount[];

/** Newest first: a counter-entry's original may come first, so each is looked at until one is in force. */
export const LAST_STATING = `SELECT p.at FROM posting p
  JOIN entry e ON e.no = p.entry_no
  WHERE p.account_no = ? AND p.is_stating = 1 AND e.state = 'in force'
  ORDER BY p.at DESC, p.entry_no DESC LIMIT 1`;

export const POSTED_AFTER = "SELECT coalesce(sum(grams), 0) FROM posting WHERE account_no = ? AND at > ?";

/** Booked level at the end of an instant, grams. Counter-entries stand at the instant of what they take back, so they cancel. */
const bookAt = (db: Connection, account: TankAccount, at: number): number =>
  account.balance - (db.prepared(POSTED_AFTER).pluck().get(account.no, at) as number);

/**
 * For each tank that the books have stated, the last instant at which they did, and the level at its end (with all that
 * moved at that very instant).
 */
export const readStatedLevels = (db: Connection): readonly StatedLevel[] =>
  tankAccounts(db).flatMap((account) => {
    const at = db.prepared(LAST_STATING).pluck().get(account.no) as number | undefined;
    return at === undefined ? [] : [{ tankId: account.tankId, at, massKg: toKg(bookAt(db, account, at)) }];
  });

export const LAST_MOVEMENTS = `SELECT p.at AS at, e.kind AS kind, p.grams AS grams, e.no AS no FROM posting p
  JOIN entry e ON e.no = p.entry_no
  WHERE p.account_no = ? AND p.at > ? AND p.at <= ? AND e.state = 'in force'
  ORDER BY p.at DESC, p.entry_no DESC LIMIT ?`;

interface MovementRow {
  readonly at: number;
  readonly kind: EntryKind;
  readonly grams: number;
}

const movementsOf = (
  db: Connection,
  account: TankAccount,
  fromAt: number,
  untilAt: number,
  most: number,
): TankMovement[] => {
  const rows = db.prepared(LAST_MOVEMENTS).all(account.no, fromAt, untilAt, most) as MovementRow[];
  let book = rows.length === 0 ? 0 : bookAt(db, account, untilAt);
  const movements = rows.map(({ at, kind, grams }): TankMovement => {
    const movement = { tankId: account.tankId, at, kind, massKg: toKg(grams), bookKg: toKg(book) };
    book -= grams;
    return movement;
  });
  return movements.toReversed();
};

/** SQLite reads a negative limit as none. */
const NO_LIMIT = -1;

export const readMovements = (
  db: Connection,
  fromAt: number,
  untilAt: number,
  mostPerTank: number | undefined,
): readonly TankMovement[] =>
  tankAccounts(db)
    .flatMap((account) => movementsOf(db, account, fromAt, untilAt, mostPerTank ?? NO_LIMIT))
    .toSorted((a, b) => a.at - b.at);

export const readMovementsOfTank = (
  db: Connection,
  tankId: string,
  fromAt: number,
  untilAt: number,
): readonly TankMovement[] =>
  tankAccounts(db)
    .filter((account) => account.tankId === tankId)
    .flatMap((account) => movementsOf(db, account, fromAt, untilAt, NO_LIMIT));

/** Mass on an account (`kind/owner`), kg; 0 for one that nothing was posted to. */
export const readBalanceKg = (db: Connection, accountId: string, propellantId: string): number => {
  const slash = accountId.indexOf("/");
  if (slash < 0)
    throw new PlanningError("invalid input", `“${accountId.slice(0, 80)}” is not an account: kind/owner.`, "accountId");
  const grams = db
    .prepared("SELECT balance_grams FROM account WHERE kind = ? AND owner_id = ? AND propellant_id = ?")
    .pluck()
    .get(accountId.slice(0, slash), accountId.slice(slash + 1), propellantId) as number | undefined;
  return toKg(grams ?? 0);
};
