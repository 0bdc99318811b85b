/** Spoils files: bits, bytes, numbers, tokens of the form, blocks lost, doubled or taken from another. Repeats for a seed. */

/** Numbers from 0 to 1 (a 32-bit mix of a counter). */
export const chances = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
};

/** What readers stumble over whatever they read. */
const TOKENS: readonly string[] = [
  "0",
  "-1",
  "NaN",
  "1e309",
  "-0",
  "9007199254740993",
  "99999999999999999999",
  "1,5",
  "2031-02-30",
  "275760-09-13",
  "null",
  "[]",
  "{}",
  '"',
  "\\",
  "\\u0000",
  "\u0000",
  "\u202e",
  "\ufeff",
  "\ud800",
  "\r\n",
  "\n\n",
  ";",
  ",",
  "\t",
  "=1+1",
  "__proto__",
  "constructor",
  "<![CDATA[",
  "&#0;",
  "<!DOCTYPE x [<!ENTITY a 'b'>]>",
];

export interface Form {
  /** Words of its grammar. */
  readonly tokens: readonly string[];
}

const BYTES: readonly number[] = [0, 1, 0x7f, 0x80, 0xff];

const one = (bytes: Buffer, other: Buffer, form: Form, chance: () => number): Buffer => {
  const below = (n: number): number => Math.floor(chance() * n);
  const at = below(bytes.length + 1);
  const length = 1 + below(Math.min(64, bytes.length + 1));
  const replaced = (from: number, until: number, by: Buffer): Buffer =>
    Buffer.concat([bytes.subarray(0, from), by, bytes.subarray(until)]);
  switch (below(9)) {
    case 0: {
      const turned = Buffer.from(bytes);
      if (at < turned.length) turned[at] = (turned[at] ?? 0) ^ (1 << below(8));
      return turned;
    }
    case 1: {
      const set = Buffer.from(bytes);
      if (at < set.length) set[at] = BYTES[below(BYTES.length)] ?? 0;
      return set;
    }
    case 2:
      return replaced(at, at + length, Buffer.alloc(0));
    case 3:
      return replaced(at, at, bytes.subarray(at, at + length));
    case 4:
      return replaced(at, at + below(8), Buffer.from(TOKENS[below(TOKENS.length)] ?? ""));
    case 5:
      return form.tokens.length === 0
        ? replaced(at, at + 4, Buffer.from([0xff, 0xff, 0xff, 0x7f]))
        : replaced(at, at + below(8), Buffer.from(form.tokens[below(form.tokens.length)] ?? ""));
    case 6: {
      const from = below(other.length + 1);
      return replaced(at, at + length, other.subarray(from, from + length));
    }
    case 7:
      return Buffer.from(bytes.subarray(0, at));
    default: {
      // A number in a text becomes another.
      const text = bytes.toString("latin1");
      const match = [...text.slice(at, at + 400).matchAll(/\d+(?:\.\d+)?/g)][0];
      if (match === undefined) return replaced(at, at + 1, Buffer.from("9"));
      const place = at + match.index;
      return replaced(place, place + match[0].length, Buffer.from(TOKENS[below(10)] ?? "0"));
    }
  }
};

/** The bytes spoiled in one to five ways. `other`: another file of the form, of which pieces may be taken. */
export const spoiled = (bytes: Buffer, other: Buffer, form: Form, chance: () => number): Buffer => {
  let result = bytes;
  for (let n = 1 + Math.floor(chance() ** 2 * 5); n > 0; n -= 1) result = one(result, other, form, chance);
  return result;
};
