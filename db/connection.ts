/** A connection to a ledger file: the settings it needs, statements prepared once, and transactions. */
import Sqlite from "better-sqlite3";

export interface Connection {
  readonly sqlite: Sqlite.Database;
  /** The statement for this text, prepared at its first use. */
  prepared(sql: string): Sqlite.Statement;
  /** Runs an action whole or not at all. */
  write<T>(action: () => T): T;
}

/** How long a statement waits for another program's lock, ms. */
const BUSY_MS = 2000;

/** 16 MB of pages in memory, in KiB as SQLite counts. */
const CACHE_KIB = 16_384;

/** Wraps an open database; sets what is set anew at each opening. */
export const connectionOver = (sqlite: Sqlite.Database): Connection => {
  sqlite.pragma("foreign_keys = ON");
  sqlite.pragma("recursive_triggers = ON");
  sqlite.pragma("trusted_schema = OFF");
  sqlite.pragma(`cache_size = -${CACHE_KIB}`);
  if (!sqlite.readonly && !sqlite.memory) sqlite.pragma("synchronous = FULL");
  const statements = new Map<string, Sqlite.Statement>();
  const prepared = (sql: string): Sqlite.Statement => {
    const known = statements.get(sql);
    if (known !== undefined) return known;
    const statement = sqlite.prepare(sql);
    statements.set(sql, statement);
    return statement;
  };
  return { sqlite, prepared, write: (action) => sqlite.transaction(action).immediate() };
};

export const connect = (path: string, isReadOnly: boolean): Connection =>
  connectionOver(new Sqlite(path, { readonly: isReadOnly, fileMustExist: true, timeout: BUSY_MS }));
