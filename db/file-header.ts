/** Looks at a file's first bytes before SQLite may touch it: only a whole ledger of a known version is opened. */
import { type Stats, closeSync, existsSync, fstatSync, openSync, readSync, statSync } from "node:fs";
import { PlanningError } from "../app/ground/failure.ts";
import { APPLICATION_ID } from "./application.ts";
import { asFailure } from "./storage-failure.ts";

/** Offsets of SQLite's file format (sqlite.org/fileformat2.html, section 1.3, the database header). */
const HEADER_BYTES = 100;
const PAGE_SIZE_AT = 16;
const CHANGE_COUNTER_AT = 24;
const PAGE_COUNT_AT = 28;
const USER_VERSION_AT = 60;
const APPLICATION_ID_AT = 68;
const VALID_FOR_AT = 92;
const MAGIC = "SQLite format 3\0";

/** What a file's first bytes say that it is: a ledger of ours, another database, or neither (null). */
export const kindOfDatabase = (beginning: Buffer): "ledger" | "database" | null => {
  if (beginning.toString("latin1", 0, MAGIC.length) !== MAGIC) return null;
  const isOurs = beginning.length >= HEADER_BYTES && beginning.readUInt32BE(APPLICATION_ID_AT) === APPLICATION_ID;
  return isOurs ? "ledger" : "database";
};

const notALedger = (message: string) => new PlanningError("not a ledger", message);

/** Undefined: there is nothing. Throws in words where the disk cannot even look. */
const foundAt = (path: string): Stats | undefined => {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    throw asFailure(error);
  }
};

const readHeader = (path: string): { readonly header: Buffer; readonly size: number } => {
  const found = foundAt(path);
  if (found === undefined) throw new PlanningError("storage", "There is no such file. Check the path.");
  if (found.isDirectory()) throw new PlanningError("storage", "That is a folder, not a ledger file.");
  // A pipe would be waited for without end.
  if (!found.isFile()) throw new PlanningError("storage", "That is a pipe or a device, not a file.");
  const file = openSync(path, "r");
  try {
    const header = Buffer.alloc(HEADER_BYTES);
    const read = readSync(file, header, 0, HEADER_BYTES, 0);
    return { header: header.subarray(0, read), size: fstatSync(file).size };
  } finally {
    closeSync(file);
  }
};

/**
 * The schema version of the ledger at `path`. Refuses, without opening it as a database: no file, a folder, another
 * kind of file, another program's database, a version newer than `newestVersion`, a file cut short.
 */
export const inspectLedgerFile = (path: string, newestVersion: number): number => {
  const { header, size } = readHeader(path);
  if (size === 0) throw notALedger("The file is empty: it is not a ledger.");
  if (header.length < HEADER_BYTES || header.toString("latin1", 0, MAGIC.length) !== MAGIC)
    throw notALedger("The file is not a ledger, or its beginning is damaged. It was left untouched.");
  if (header.readUInt32BE(APPLICATION_ID_AT) !== APPLICATION_ID)
    throw notALedger("The file is a database of another program. It was left untouched.");
  const version = header.readUInt32BE(USER_VERSION_AT);
  if (version > newestVersion)
    throw notALedger(
      `The ledger was written by a newer version of this program (its form is ${version}, this program knows ${newestVersion}). It was left untouched; open it with the newer program.`,
    );
  if (version === 0) throw notALedger("The ledger was never finished. It was left untouched.");
  const declared = header.readUInt16BE(PAGE_SIZE_AT);
  const pageSize = declared === 1 ? 65_536 : declared;
  const isCountValid = header.readUInt32BE(CHANGE_COUNTER_AT) === header.readUInt32BE(VALID_FOR_AT);
  const pages = header.readUInt32BE(PAGE_COUNT_AT);
  const hasPendingLog = existsSync(`${path}-wal`) && statSync(`${path}-wal`).size > 0;
  if (isCountValid && !hasPendingLog && size < pages * pageSize)
    throw notALedger(
      `The ledger file is cut short: ${size} bytes of ${pages * pageSize}. It was left untouched; use a backup or an exported copy.`,
    );
  return version;
};
