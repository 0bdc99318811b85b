/** What the books say of the tanks: the last stated level, the movements, a balance. All from indexes. */
import { PlanningError } from "../app/ground/failure.ts";
import { toKg } from "../app/ledger/journal.ts";
import type { EntryKind } from "../app/ledger/journal.ts";
import type { StatedLevel, TankMovement } from "../app/ledger/books.ts";
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

/**
 * Whether an entry `e` with a posting `p` on the tank account `a` says what the tank held: a closing only where a reading of
 * the tank went into it. A reading names its entry as first written.
 */
export const MEASURES = `(e.kind <> 'closing' OR EXISTS (SELECT 1 FROM reading r
    WHERE r.tank_id = a.owner_id AND r.at = p.at AND r.is_withdrawn = 0
      AND r.entry_id IN (e.id, (SELECT f.id FROM entry f WHERE f.no = e.rewrites_no))))`;

/** Newest first: a counter-entry's original may come first, so each is looked at until one is in force. */
export const LAST_STATING = `SELECT p.at FROM posting p
  JOIN entry e ON e.no = p.entry_no
  JOIN account a ON a.no = p.account_no
  WHERE p.account_no = ? AND p.is_stating = 1 AND e.state = 'in force' AND ${MEASURES}
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

export const LAST_MOVEMENTS = `SELECT p.at AS at, e.kind AS kind, p.grams AS grams, e.no AS no, e.since_at AS sinceAt, e.subject_key AS subjectKey,
    CASE WHEN e.kind IN ('opening', 'reading', 'return') THEN 1
      WHEN e.kind = 'closing' THEN ${MEASURES}
      WHEN e.kind = 'loading' THEN EXISTS (SELECT 1 FROM tank t WHERE t.id = a.owner_id AND t.owner_kind = 'craft')
      ELSE 0 END AS states
  FROM posting p
  JOIN entry e ON e.no = p.entry_no
  JOIN account a ON a.no = p.account_no
  WHERE p.account_no = ? AND p.at > ? AND p.at <= ? AND e.state = 'in force'
  ORDER BY p.at DESC, p.entry_no DESC LIMIT ?`;

interface MovementRow {
  readonly at: number;
  readonly kind: EntryKind;
  readonly grams: number;
  readonly sinceAt: number | null;
  readonly subjectKey: string | null;
  readonly states: 0 | 1;
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
  const movements = rows.map(({ at, kind, grams, sinceAt, subjectKey, states }): TankMovement => {
    const bookKg = toKg(book);
    const statedKg = states === 0 ? null : kind === "loading" ? 0 : bookKg;
    const movement = { tankId: account.tankId, at, kind, massKg: toKg(grams), bookKg, statedKg, sinceAt, subjectKey };
    book -= grams;
    return movement;
  });
  return movements.toReversed();
};

const FIRST_MOVEMENT = `SELECT p.at FROM posting p JOIN entry e ON e.no = p.entry_no
  WHERE p.account_no = ? AND e.state = 'in force' ORDER BY p.at, p.entry_no LIMIT 1`;

/** Of each tank with movements in force, the instant of the first. */
export const readOpenings = (db: Connection): readonly { readonly tankId: string; readonly at: number }[] =>
  tankAccounts(db).flatMap(({ no, tankId }) => {
    const at = db.prepared(FIRST_MOVEMENT).pluck().get(no) as number | undefined;
    return at === undefined ? [] : [{ tankId, at }];
  });

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
