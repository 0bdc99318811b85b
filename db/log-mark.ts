/**
 * The mark that binds a log to its file. The first edit of every opening gives the file a new mark, which is on the disk
 * before the edit begins; every log repeats it. A log whose mark the file does not have belongs to another state of it.
 */
import { randomBytes } from "node:crypto";
import type { Connection } from "./connection.ts";

export const LOG_MARK = "log of ";
const HEX = 32;
export const MARK_LENGTH = LOG_MARK.length + HEX;
/** Of a file that no edit was made to since it was made, copied or brought forward. */
export const UNBOUND = LOG_MARK + "0".repeat(HEX);

/** Gives the file a new mark; within a transaction. */
export const renewMark = (db: Connection): void => {
  db.prepared("UPDATE log_mark SET mark = ?, logs = 0").run(LOG_MARK + randomBytes(HEX / 2).toString("hex"));
};

/** Writes the mark's page anew, so that a log which begins here has it; within a transaction. */
export const repeatMark = (db: Connection): void => {
  db.prepared("UPDATE log_mark SET logs = logs + 1").run();
};

/** Makes a file one that no log belongs to; within a transaction. */
export const dropMark = (db: Connection): void => {
  db.prepared("UPDATE log_mark SET mark = ?, logs = 0").run(UNBOUND);
};
