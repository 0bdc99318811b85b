/** Bytes as base64 (RFC 4648, section 4) and back, where there is neither Node's Buffer nor a browser's atob. */

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
const PAD = "=";

const codeOf = new Int16Array(128).fill(-1);
for (let code = 0; code < LETTERS.length; code += 1) codeOf[LETTERS.charCodeAt(code)] = code;

/** Pieces of this many bytes are joined at the end: one string that grows letter by letter is slow. */
const PIECE = 3 * 4096;

const letter = (code: number): string => LETTERS[code & 63] ?? "";

const piece = (bytes: Uint8Array, from: number, until: number): string => {
  let text = "";
  for (let at = from; at < until; at += 3) {
    const a = bytes[at] ?? 0;
    const b = bytes[at + 1] ?? 0;
    const c = bytes[at + 2] ?? 0;
    text += letter(a >> 2) + letter((a << 4) | (b >> 4));
    text += at + 1 < bytes.length ? letter((b << 2) | (c >> 6)) : PAD;
    text += at + 2 < bytes.length ? letter(c) : PAD;
  }
  return text;
};

export const bytesToBase64 = (bytes: Uint8Array): string => {
  const pieces: string[] = [];
  for (let from = 0; from < bytes.length; from += PIECE)
    pieces.push(piece(bytes, from, Math.min(from + PIECE, bytes.length)));
  return pieces.join("");
};

/** Throws where the text is not base64. */
export const base64ToBytes = (text: string): Uint8Array<ArrayBuffer> => {
  const end = text.endsWith("==") ? 2 : text.endsWith(PAD) ? 1 : 0;
  if (text.length % 4 !== 0) throw new Error("This is not base64: its length is no multiple of four.");
  const bytes = new Uint8Array((text.length / 4) * 3 - end);
  let to = 0;
  for (let at = 0; at < text.length; at += 4) {
    let word = 0;
    for (let index = 0; index < 4; index += 1) {
      const isPad = at + index >= text.length - end;
      const code = isPad ? 0 : (codeOf[text.charCodeAt(at + index)] ?? -1);
      if (code < 0) throw new Error("This is not base64: a letter does not belong there.");
      word = (word << 6) | code;
    }
    // Beyond the end of the array nothing is written.
    bytes[to] = word >> 16;
    bytes[to + 1] = word >> 8;
    bytes[to + 2] = word;
    to += 3;
  }
  return bytes;
};
