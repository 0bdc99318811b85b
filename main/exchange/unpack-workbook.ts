/**
 * Unpacks a workbook (a ZIP of XML, ECMA-376) within limits. The ZIP's own list is asked first; then every byte that
 * really comes out is counted, for a list can lie. What came out is packed again without compression for the reader.
 *
 * Bytes from outside are unpacked here and nowhere else, by yauzl over Node's zlib: fflate, which the writers bring and
 * which packs again, cuts what is longer than its list says without a word, and the reader's own way to unpack is never
 * loaded.
 */
import { crc32 } from "node:zlib";
import { zipSync } from "fflate";
import { fromBufferPromise, type Entry, type ZipFile } from "yauzl";
import { type HiddenParts, readCellsAsShown } from "./workbook-cells.ts";
import { PlanningError } from "../../app/ground/failure.ts";

const MAX_ENTRIES = 2000;
/** Bytes, unpacked, of all parts that are read. */
const MAX_UNPACKED = 200_000_000;
/** A sheet of figures shrinks to a tenth or a thirtieth; a trap to a thousandth. */
const MAX_RATIO = 250;
/** Smaller parts may shrink as they like. */
const RATIO_COUNTS_FROM = 5_000_000;
/** Cells of the rectangle that a sheet spans. */
const MAX_CELLS = 6_000_000;

const refused = (message: string) => new PlanningError("invalid input", message, "content");
const bomb = () =>
  refused(
    `This workbook unpacks to more than ${MAX_UNPACKED / 1e6} MB, or far more than its size makes likely. Such a file can be a trap, and is not opened. Keep the rows alone in a new workbook, or save them as CSV.`,
  );

/** The older container: workbooks before 2007, and newer ones behind a password. */
const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const ENCRYPTED = Buffer.from("EncryptedPackage", "utf16le");
/** A local header, or the end of a list without entries. */
const ZIP_STARTS = [
  [0x50, 0x4b, 3, 4],
  [0x50, 0x4b, 5, 6],
];

const startsWith = (bytes: Uint8Array, mark: readonly number[]): boolean =>
  mark.every((value, index) => bytes[index] === value);

/** Whether bytes are meant to be a workbook, of a form that can be read here or not. */
export const isWorkbook = (bytes: Uint8Array): boolean =>
  [...ZIP_STARTS, COMPOUND_FILE].some((mark) => startsWith(bytes, mark));

const refuseOtherForms = (bytes: Buffer): void => {
  if (!startsWith(bytes, COMPOUND_FILE)) {
    if (isWorkbook(bytes)) return;
    throw refused("The file ends in .xlsx but is no workbook. Save it again from the program that made it, or as CSV.");
  }
  throw refused(
    bytes.includes(ENCRYPTED)
      ? "The workbook is behind a password. Take the password off in the program that made it, and save it again."
      : "The workbook has the old form (.xls). Save it as .xlsx or CSV.",
  );
};

const isRead = (name: string): boolean => /\.(xml|rels)$/i.test(name) && !/^(docProps|customXml)\//.test(name);

const checkDirectory = (entries: readonly Entry[]): void => {
  let unpacked = 0;
  for (const entry of entries) {
    if (entry.isEncrypted())
      throw refused(
        "The workbook is behind a password. Take the password off in the program that made it, and save it again.",
      );
    unpacked += entry.uncompressedSize;
    const isSteep =
      entry.uncompressedSize > RATIO_COUNTS_FROM && entry.uncompressedSize > MAX_RATIO * entry.compressedSize;
    if (unpacked > MAX_UNPACKED || isSteep) throw bomb();
  }
};

const inflate = async (zip: ZipFile, entry: Entry, budget: { left: number }): Promise<Uint8Array> => {
  const stream = await zip.openReadStreamPromise(entry);
  const chunks: Buffer[] = [];
  for await (const chunk of stream as AsyncIterable<Buffer>) {
    budget.left -= chunk.length;
    if (budget.left < 0) throw bomb();
    chunks.push(chunk);
  }
  const part = Buffer.concat(chunks);
  // The reader of the ZIP checks sizes alone: a turned bit would be another figure without a word.
  if (crc32(part) !== entry.crc32) throw new Error(`${entry.fileName} does not agree with its checksum`);
  return part;
};

const columnNumber = (letters: string): number =>
  Array.from(letters).reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);

/** A cell far out makes a reader fill all that lies between with nothing. */
const refuseWideSheet = (xml: string): void => {
  let [rows, columns] = [1, 1];
  let widest = "";
  for (const match of xml.matchAll(/\sr="([A-Z]*)(\d+)"/g)) {
    rows = Math.max(rows, Number(match[2]));
    const letters = match[1] ?? "";
    if (letters.length < widest.length || letters === widest) continue;
    columns = Math.max(columns, columnNumber(letters));
    if (letters.length > widest.length) widest = letters;
  }
  if (rows * columns > MAX_CELLS)
    throw refused(
      `A sheet of the workbook spans ${rows} rows and ${columns} columns; ${MAX_CELLS / 1e6} million cells at most are read. Delete what stands far out, or save the rows as CSV.`,
    );
};

/**
 * What the reader would misread is put in the form that it reads: an error in a cell ("#REF!") becomes its words, for it
 * would be taken for an empty cell, and the flag of dates counted from 1904 its number.
 */
const madeReadable = (name: string, bytes: Uint8Array): Uint8Array => {
  // One letter a byte: only letters below 128 are looked at and written, so nothing else changes.
  const text = (): string => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1");
  if (/worksheets\/[^/]+\.xml$/i.test(name)) {
    const xml = text();
    refuseWideSheet(xml);
    return xml.includes('t="e"') ? Buffer.from(xml.replace(/(<c\b[^>]*\st=)"e"/g, '$1"str"'), "latin1") : bytes;
  }
  return name === "xl/workbook.xml" ? Buffer.from(text().replace(/date1904="true"/i, 'date1904="1"'), "latin1") : bytes;
};

/** Throws "invalid input" in words: no workbook, behind a password, damaged, too large, a trap. */
export const unpackWorkbook = async (bytes: Buffer): Promise<HiddenParts & { readonly content: ArrayBuffer }> => {
  refuseOtherForms(bytes);
  try {
    const zip = await fromBufferPromise(bytes, { lazyEntries: true, validateEntrySizes: true });
    if (zip.entryCount > MAX_ENTRIES) throw bomb();
    const entries: Entry[] = [];
    for await (const entry of zip.eachEntry()) if (isRead(entry.fileName)) entries.push(entry);
    checkDirectory(entries);
    if (!entries.some(({ fileName }) => fileName === "xl/workbook.xml"))
      throw refused(
        "The file is a ZIP, but holds no workbook. Save it again from the program that made it, or as CSV.",
      );
    const budget = { left: MAX_UNPACKED };
    const parts: Record<string, Uint8Array> = {};
    for (const entry of entries) {
      parts[entry.fileName] = madeReadable(entry.fileName, await inflate(zip, entry, budget));
    }
    const hidden = readCellsAsShown(parts);
    return { content: zipSync(parts, { level: 0 }).buffer, ...hidden };
  } catch (error) {
    if (error instanceof PlanningError) throw error;
    const why = error instanceof Error ? error.message.slice(0, 120) : "";
    throw refused(
      `The workbook is damaged and cannot be unpacked (${why}). Save it again from the program that made it.`,
    );
  }
};
