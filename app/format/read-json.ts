/** JSON text as unknown data, refused before it is read if it is too deep, or has too many values or fields, to be meant. */

/** Nothing that this program writes is deeper than ten. */
const MAX_DEPTH = 40;
/** A ledger of the largest text that is taken has about four million values. */
const MAX_VALUES = 6_000_000;
/** No group of ours has a hundred fields; a group of millions takes a parser a minute and gigabytes. */
const MAX_FIELDS = 10_000;
/** The shortest entry of a list that may be long, a gauge reading, takes a hundred characters of at most 64 million. */
const MAX_ENTRIES = 1_000_000;

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COMMA = 0x2c;
const LIST = 0x5b;
const GROUP = 0x7b;

/** Why a text is not read; the words fit behind "The text is not JSON: " and stand alone. */
export class UnreadableJson extends Error {}

/** The index of the quote that ends a string begun before `index`; the text's length if none does. */
const endOfString = (text: string, begin: number): number => {
  let index = begin;
  for (;;) {
    index = text.indexOf('"', index);
    if (index < 0) return text.length;
    let backslashes = 0;
    while (text.charCodeAt(index - 1 - backslashes) === BACKSLASH) backslashes += 1;
    if (backslashes % 2 === 0) return index;
    index += 1;
  }
};

/** Counts without building anything: a parser that has begun on a hundred million lists cannot be stopped. */
const refuseGiant = (text: string, mostValues: number): void => {
  let depth = 0;
  let values = 0;
  /** Of what is open at each depth: whether it is a group, and the commas in it so far. */
  const isGroup = new Uint8Array(MAX_DEPTH + 2);
  const commas = new Int32Array(MAX_DEPTH + 2);
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    if (code === QUOTE) index = endOfString(text, index + 1);
    else if (code === COMMA) {
      values += 1;
      const here = (commas[depth] ?? 0) + 1;
      commas[depth] = here;
      if (here >= MAX_FIELDS && isGroup[depth] === 1)
        throw new UnreadableJson(`it has a group of more than ${MAX_FIELDS.toLocaleString("en")} fields`);
      if (here >= MAX_ENTRIES) throw new UnreadableJson("it has a list of more than a million entries");
    } else if (code === LIST || code === GROUP) {
      depth += 1;
      values += 1;
      isGroup[depth] = code === GROUP ? 1 : 0;
      commas[depth] = 0;
    } else if (code === 0x5d || code === 0x7d) depth -= 1;
    if (depth > MAX_DEPTH) throw new UnreadableJson(`it has groups within groups, more than ${MAX_DEPTH} deep`);
    if (values > mostValues) throw new UnreadableJson(`it has more than ${mostValues / 1e6} million values`);
  }
};

/** Throws `UnreadableJson`. A byte-order mark before the text is passed over. `mostValues`: where fewer will do. */
export const readJson = (text: string, mostValues = MAX_VALUES): unknown => {
  refuseGiant(text, mostValues);
  try {
    return JSON.parse(text.replace(/^\uFEFF/, "")) as unknown;
  } catch (error) {
    throw new UnreadableJson(error instanceof Error ? error.message.slice(0, 120) : "");
  }
};
