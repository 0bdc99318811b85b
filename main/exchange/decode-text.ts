/** Bytes as text: UTF-8, UTF-16 with its mark, Windows-1252; what is none of them is refused, with the line. */
import { PlanningError } from "../../app/ground/failure.ts";

export interface DecodedText {
  readonly text: string;
  /** "UTF-8" */
  readonly encoding: string;
  /** What a person should look at; null: nothing. */
  readonly remark: string | null;
}

const refused = (message: string) => new PlanningError("invalid input", message, "content");

const startsWith = (bytes: Uint8Array, mark: readonly number[]): boolean =>
  mark.every((value, index) => bytes[index] === value);

const UTF8_MARK = [0xef, 0xbb, 0xbf];
const UTF16_LE_MARK = [0xff, 0xfe];
const UTF16_BE_MARK = [0xfe, 0xff];
const UTF32_LE_MARK = [0xff, 0xfe, 0, 0];

/** Not used in Windows-1252. */
const UNUSED_IN_1252 = new Set([0x81, 0x8d, 0x8f, 0x90, 0x9d]);
/** What Windows-1252 has at 0x80 to 0x9F, where Latin-1 has nothing to be read (unused: a blank). */
const AT_0X80 = "€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ";
const MAX_LOOKED_AT = 4096;

/** UTF-16 without its mark: every other byte of ordinary text is 0. */
const zeroShares = (bytes: Uint8Array): readonly [number, number] => {
  const looked = bytes.subarray(0, MAX_LOOKED_AT);
  let [even, odd] = [0, 0];
  looked.forEach((byte, index) => {
    if (byte !== 0) return;
    if (index % 2 === 0) even += 1;
    else odd += 1;
  });
  return [even / (looked.length / 2), odd / (looked.length / 2)];
};

const decode = (bytes: Uint8Array, encoding: string, name: string): DecodedText => {
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes), encoding: name, remark: null };
  } catch {
    throw refused(`The file says that it is ${name} text, but holds what is none. Save it again as UTF-8.`);
  }
};

/** Bytes that are not UTF-8: one letter each, or UTF-8 that was damaged. */
const decodeSingleBytes = (bytes: Uint8Array): DecodedText => {
  const lax = new TextDecoder("utf-8").decode(bytes);
  const good = lax.match(/[\u0080-\ufffc]/g)?.length ?? 0;
  const line = lax.slice(0, lax.indexOf("\ufffd")).split(/\r\n|\r|\n/).length;
  // One-byte text forms no letter of several bytes, but by a rare chance.
  if (good > 0 || bytes.some((byte) => UNUSED_IN_1252.has(byte)))
    throw refused(`Line ${line} is damaged: it holds bytes that are not UTF-8. Save the file again as UTF-8.`);
  return {
    // By hand: the decoder of Node reads Latin-1 under this name.
    text: Buffer.from(bytes)
      .toString("latin1")
      .replace(/[\u0080-\u009f]/g, (letter) => AT_0X80[letter.charCodeAt(0) - 0x80] ?? letter),
    encoding: "Windows-1252",
    remark: "The file is not UTF-8 and was read as Windows-1252: look at names with accents.",
  };
};

/** Throws "invalid input" for bytes that are no text in an encoding known here. */
export const decodeText = (bytes: Uint8Array): DecodedText => {
  if (bytes.length === 0) throw refused("The file is empty.");
  if (startsWith(bytes, UTF32_LE_MARK)) throw refused("The file is UTF-32 text. Save it as UTF-8.");
  if (startsWith(bytes, UTF8_MARK)) return decode(bytes, "utf-8", "UTF-8");
  if (startsWith(bytes, UTF16_LE_MARK)) return decode(bytes, "utf-16le", "UTF-16");
  if (startsWith(bytes, UTF16_BE_MARK)) return decode(bytes, "utf-16be", "UTF-16");
  const [even, odd] = zeroShares(bytes);
  if (odd > 0.4 && even < 0.1) return decode(bytes, "utf-16le", "UTF-16");
  if (even > 0.4 && odd < 0.1) return decode(bytes, "utf-16be", "UTF-16");
  if (even + odd > 0)
    throw refused("The file is not text. A CSV file, a workbook (.xlsx) or a calendar (.ics) is expected.");
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8", remark: null };
  } catch {
    return decodeSingleBytes(bytes);
  }
};
