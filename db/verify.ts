/** The whole check of a ledger file: the database, the balance of the books, the kept balances, references, the rules, the issues of reports. */
import type { Soundness } from "../app/ledger/ledger-view.ts";
import type { EntitySet } from "../app/entity/entities.ts";
import { planFaults } from "../app/ledger/rules/check-plan.ts";
import { readBooks } from "./books.ts";
import type { Connection } from "./connection.ts";
import { chainFaults } from "./digest-chain.ts";
import { issueFaults } from "./report-issues.ts";
import { rowFaults } from "./row-digest.ts";

const strings = (db: Connection, sql: string): string[] => db.prepared(sql).pluck().all() as string[];

const databaseFaults = (db: Connection): string[] =>
  (db.sqlite.pragma("integrity_check(20)") as { integrity_check: string }[])
    .map((row) => row.integrity_check)
    .filter((line) => line !== "ok")
    .map((line) => `The file is damaged: ${line}.`);

const referenceFaults = (db: Connection): string[] =>
  (db.sqlite.pragma("foreign_key_check") as { table: string; parent: string }[])
    .slice(0, 20)
    .map((row) => `A row of ${row.table} refers to a ${row.parent} that does not exist.`);

const UNBALANCED = `SELECT 'Journal entry ' || e.id || ' does not balance: ' || s.propellant_id || ' sums to ' || s.grams || ' g.'
  FROM (SELECT p.entry_no, a.propellant_id, sum(p.grams) AS grams FROM posting p JOIN account a ON a.no = p.account_no
        GROUP BY p.entry_no, a.propellant_id HAVING sum(p.grams) <> 0 LIMIT 20) s JOIN entry e ON e.no = s.entry_no`;
const UNSEALED = "SELECT 'Journal entry ' || id || ' was never finished.' FROM entry WHERE state = 'open' LIMIT 20";
const TOO_FEW = `SELECT 'Journal entry ' || e.id || ' has fewer than two postings.' FROM entry e
  WHERE (SELECT count(*) FROM posting p WHERE p.entry_no = e.no) < 2 LIMIT 20`;
const WRONG_BALANCE = `SELECT 'The kept balance of ' || a.kind || '/' || a.owner_id || ' (' || a.propellant_id || ') is ' || a.balance_grams
    || ' g; its postings sum to ' || coalesce(s.grams, 0) || ' g.'
  FROM account a LEFT JOIN (SELECT account_no, sum(grams) AS grams FROM posting GROUP BY account_no) s ON s.account_no = a.no
  WHERE a.balance_grams <> coalesce(s.grams, 0) LIMIT 20`;
const WRONG_INSTANT = `SELECT 'A posting of journal entry ' || e.id || ' bears another instant than the entry.'
  FROM posting p JOIN entry e ON e.no = p.entry_no WHERE p.at <> e.at LIMIT 20`;
const WRONG_STATE = `SELECT 'Journal entry ' || e.id || ' is marked ' || e.state || ', which its reversals contradict.'
  FROM entry e LEFT JOIN entry c ON c.reverses_no = e.no
  WHERE (e.state = 'in force' AND c.no IS NOT NULL) OR (e.state = 'taken back' AND c.no IS NULL) LIMIT 20`;
const OWNERLESS = `SELECT 'The books hold records of the tank ' || a.owner_id || ', which does not exist or holds another propellant.'
  FROM account a WHERE a.kind = 'tank'
    AND NOT EXISTS (SELECT 1 FROM tank t WHERE t.id = a.owner_id AND t.propellant_id = a.propellant_id)
    AND EXISTS (SELECT 1 FROM posting p JOIN entry e ON e.no = p.entry_no WHERE p.account_no = a.no AND e.state = 'in force')
  LIMIT 20`;

const bookFaults = (db: Connection): string[] =>
  [UNBALANCED, UNSEALED, TOO_FEW, WRONG_BALANCE, WRONG_INSTANT, WRONG_STATE, OWNERLESS].flatMap((sql) =>
    strings(db, sql),
  );

const count = (db: Connection, table: "entry" | "posting") =>
  db.prepared(`SELECT count(*) FROM ${table}`).pluck().get() as number;

/** Reads the whole file. The balance check belongs here and not to the opening, which must not read every posting. */
export const verifyLedger = (db: Connection, entities: () => EntitySet): Soundness => {
  const damage = databaseFaults(db);
  // What a damaged file says of itself is not worth reading further.
  if (damage.length > 0) return { isSound: false, books: null, faults: damage, entries: 0, postings: 0 };
  const faults = [
    ...referenceFaults(db),
    ...bookFaults(db),
    ...chainFaults(db),
    ...rowFaults(db),
    ...issueFaults(db),
    ...planFaults(entities()),
  ];
  return {
    isSound: faults.length === 0,
    books: readBooks(db),
    faults,
    entries: count(db, "entry"),
    postings: count(db, "posting"),
  };
};
