/**
 * Reads the write-ahead log beside a ledger without SQLite: how much of it counts, and which file it was written for.
 * Format: sqlite.org/fileformat2.html, section 4 (the write-ahead log), and 1.6 (b-tree pages).
 */
import { closeSync, openSync, readFileSync, readSync, statSync } from "node:fs";
import { LOG_MARK, MARK_LENGTH, UNBOUND } from "./log-mark.ts";

export const logPath = (ledgerPath: string): string => `${ledgerPath}-wal`;

const HEADER_BYTES = 32;
const FRAME_HEADER_BYTES = 24;
const MAGIC = 0x377f0682;
const LEAF_OF_TABLE = 0x0d;
/** A row's own header before its first text. */
const MAX_BEFORE_TEXT = 24;

export interface PendingLog {
  /** Pages of the ledger that the log holds newer than the file. */
  readonly pages: number;
  /** The page of the mark, as last written; null: the log does not tell which file it is for. */
  readonly mark: { readonly page: number; readonly text: string } | null;
  readonly pageSize: number;
}

type Sum = readonly [number, number];

const summed = (bytes: Buffer, from: number, until: number, isBig: boolean, [first, second]: Sum): Sum => {
  let a = first;
  let b = second;
  for (let at = from; at < until; at += 8) {
    const x = isBig ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at);
    const y = isBig ? bytes.readUInt32BE(at + 4) : bytes.readUInt32LE(at + 4);
    a = (a + x + b) >>> 0;
    b = (b + y + a) >>> 0;
  }
  return [a, b];
};

/** The mark in the page of its table; null: this page is another's. */
export const markIn = (page: Buffer): string | null => {
  if (page.length < 512 || page[0] !== LEAF_OF_TABLE || page.readUInt16BE(3) !== 1) return null;
  const cell = page.readUInt16BE(8);
  const at = page.indexOf(LOG_MARK, cell, "latin1");
  if (at < 0 || at > cell + MAX_BEFORE_TEXT) return null;
  return page.toString("latin1", at, at + MARK_LENGTH);
};

/** What the log beside the ledger still has to bring in; null: nothing. */
export const readPendingLog = (ledgerPath: string): PendingLog | null => {
  const path = logPath(ledgerPath);
  if ((statSync(path, { throwIfNoEntry: false })?.size ?? 0) <= HEADER_BYTES) return null;
  const bytes = readFileSync(path);
  const magic = bytes.readUInt32BE(0);
  if ((magic & ~1) >>> 0 !== MAGIC) return null;
  const isBig = (magic & 1) === 1;
  const pageSize = bytes.readUInt32BE(8);
  let sum = summed(bytes, 0, FRAME_HEADER_BYTES, isBig, [0, 0]);
  if (bytes.readUInt32BE(24) !== sum[0] || bytes.readUInt32BE(28) !== sum[1]) return null;
  const pages = new Set<number>();
  const open = new Set<number>();
  let mark: PendingLog["mark"] = null;
  let openMark: PendingLog["mark"] = null;
  const size = FRAME_HEADER_BYTES + pageSize;
  for (let at = HEADER_BYTES; at + size <= bytes.length; at += size) {
    if (bytes.compare(bytes, 16, 24, at + 8, at + 16) !== 0) break;
    sum = summed(bytes, at, at + 8, isBig, sum);
    sum = summed(bytes, at + FRAME_HEADER_BYTES, at + size, isBig, sum);
    if (bytes.readUInt32BE(at + 16) !== sum[0] || bytes.readUInt32BE(at + 20) !== sum[1]) break;
    const page = bytes.readUInt32BE(at);
    open.add(page);
    const text = markIn(bytes.subarray(at + FRAME_HEADER_BYTES, at + size));
    if (text !== null) openMark = { page, text };
    if (bytes.readUInt32BE(at + 4) === 0) continue;
    for (const each of open) pages.add(each);
    open.clear();
    mark = openMark;
  }
  return pages.size === 0 ? null : { pages: pages.size, mark, pageSize };
};

const pageOf = (path: string, page: number, pageSize: number): Buffer => {
  const file = openSync(path, "r");
  try {
    const bytes = Buffer.alloc(pageSize);
    return bytes.subarray(0, readSync(file, bytes, 0, pageSize, (page - 1) * pageSize));
  } finally {
    closeSync(file);
  }
};

/**
 * Whether the log was written for another file than the one that lies there now: a copy was put in its place since.
 * Only for a ledger that no connection of this process has open.
 */
export const isLogOfAnother = (ledgerPath: string, log: PendingLog): boolean => {
  if (log.mark === null || log.mark.text === UNBOUND) return false;
  return markIn(pageOf(ledgerPath, log.mark.page, log.pageSize)) !== log.mark.text;
};
