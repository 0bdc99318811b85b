/** Brings a ledger file to the newest form: numbered SQL steps, all in one transaction, after a backup copy. */
import { copyFileSync, existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { PlanningError } from "../app/ground/failure.ts";
import { APPLICATION_ID } from "./application.ts";
import { connect, type Connection } from "./connection.ts";
import { chainAnew, chainFaults } from "./digest-chain.ts";
import { digestRowsAnew } from "./row-digest.ts";
import { freeName, putNewFile } from "./new-file.ts";

export interface MigrationStep {
  readonly version: number;
  readonly file: string;
  readonly sql: string;
}

/** The steps lie beside this file, in the source as in the build. */
const FOLDER = fileURLToPath(new URL("./migrations/", import.meta.url));

/** Reads the steps of a folder, in order. Throws a plain error on a wrong or repeated number: a fault of the program. */
export const readMigrations = (folder: string = FOLDER): readonly MigrationStep[] => {
  const files = readdirSync(folder)
    .filter((file) => file.endsWith(".sql"))
    .toSorted();
  const steps = files.map((file) => {
    const version = /^(\d{4})-[a-z0-9-]+\.sql$/.exec(file)?.[1];
    if (version === undefined) throw new Error(`a migration step is called NNNN-what.sql, not ${file}`);
    return { version: Number(version), file, sql: readFileSync(`${folder}/${file}`, "utf8") };
  });
  steps.forEach((step, i) => {
    if (step.version <= (steps[i - 1]?.version ?? 0)) throw new Error(`migration step ${step.file} repeats a number`);
  });
  return steps;
};

export const newestVersion = (steps: readonly MigrationStep[]): number => steps.at(-1)?.version ?? 0;

/** The form since which entries and steps have their digests. */
const CHAINED_FROM = 110;

const versionOf = (db: Connection): number => db.sqlite.pragma("user_version", { simple: true }) as number;

/** The name of the copy that is kept of a ledger before it is brought from `version` to a newer form. */
export const backupPath = (path: string, version: number): string => `${path}.form-${version}.backup`;

/**
 * Keeps a copy of a ledger of an older form, synced, under a name that takes no older copy's place. No connection of
 * this process may have it open: reading it by the file system would drop its locks.
 */
export const keepOlderForm = (path: string, version: number): void => {
  const db = connect(path, false);
  db.sqlite.pragma("wal_checkpoint(TRUNCATE)");
  db.sqlite.close();
  const wanted = backupPath(path, version);
  if (existsSync(wanted) && readFileSync(wanted).equals(readFileSync(path))) return;
  putNewFile(freeName(wanted), (draft) => copyFileSync(path, draft));
};

/** Runs the steps that the file lacks, in one transaction. Throws and leaves the file as it was if a step fails or leaves a broken reference. */
export const migrate = (db: Connection, steps: readonly MigrationStep[]): void => {
  const from = versionOf(db);
  const pending = steps.filter((step) => step.version > from);
  if (pending.length === 0) return;
  db.sqlite.pragma("foreign_keys = OFF");
  try {
    db.write(() => {
      // What is linked anew below must be what was written.
      const [fault] = from >= CHAINED_FROM ? chainFaults(db) : [];
      if (fault !== undefined) throw new PlanningError("not a ledger", `${fault} The ledger stays as it was.`);
      for (const step of pending) db.sqlite.exec(step.sql);
      const broken = db.sqlite.pragma("foreign_key_check") as unknown[];
      if (broken.length > 0)
        throw new PlanningError("not a ledger", "The ledger could not be brought to the new form. It stays as it was.");
      if (newestVersion(steps) >= CHAINED_FROM) {
        chainAnew(db);
        digestRowsAnew(db);
      }
      db.sqlite.pragma(`application_id = ${APPLICATION_ID}`);
      db.sqlite.pragma(`user_version = ${newestVersion(steps)}`);
    });
  } finally {
    db.sqlite.pragma("foreign_keys = ON");
  }
};
