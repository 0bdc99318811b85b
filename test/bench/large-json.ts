/** Sixty megabytes of JSON that nobody means, of every kind that has cost a reader its time or its memory. */

const BYTES = 60_000_000;

export interface Shape {
  readonly name: string;
  readonly bytes: Buffer;
}

const DIGITS = 8;

/** `begin`, then a part again and again up to the size, then `end`. A part's place is written where its name has `#`. */
const repeated = (begin: string, part: string, end: string, between = ","): Buffer => {
  const out = Buffer.alloc(BYTES, " ");
  let at = out.write(begin);
  const mark = part.indexOf("#");
  const unit = Buffer.from(part.replace("#", "0".repeat(DIGITS)) + between);
  for (let n = 0; at + unit.length + end.length < BYTES; n += 1) {
    unit.copy(out, at);
    if (mark >= 0) out.write(String(n).padStart(DIGITS, "0"), at + mark);
    at += unit.length;
  }
  // The last one has none after it.
  at -= between.length;
  out.write(end, at);
  return out;
};

const ledger = (programme: string, depots: string, entries: string): string =>
  `{"format":"coldstock-ledger","version":1,"isDemonstration":false,"asOfAt":null,"readings":[],"programme":"${programme}","entities":{"depot":[${depots}]},"entries":[${entries}]}`;

/** A ledger with much in the place of `HERE`. */
const inLedger = (text: string, part: string, between = ","): Buffer => {
  const [begin = "", end = ""] = text.split("HERE");
  return repeated(begin, part, end, between);
};

const makers: Readonly<Record<string, () => Buffer>> = {
  "empty groups": () => repeated("[", "{}", "]"),
  "empty lists as fields": () => repeated("{", '"#":[]', "}"),
  "one nest": () => Buffer.from("[".repeat(BYTES / 2) + "]".repeat(BYTES / 2)),
  "one nest of groups, never closed": () => repeated("", '{"a":', "", ""),
  "one long text": () => repeated('"', "x", '"', ""),
  "one text of escaped quotes": () => repeated('"', String.raw`\"`, '"', ""),
  "one text of backslashes": () => repeated('"', String.raw`\\`, '"', ""),
  "one text never ended": () => repeated('"', "x", "", ""),
  "many members": () => repeated("{", '"#":0', "}"),
  "groups of one field, each of another name": () => repeated("[", '{"#":0}', "]"),
  "many texts": () => repeated("[", '"t#"', "]"),
  "many numbers": () => repeated("[", "1#", "]"),
  "one long number": () => repeated("", "7", "", ""),
  blanks: () => repeated("", " ", "", ""),
  "a ledger with a long text": () => inLedger(ledger("HERE", "", ""), "x", ""),
  "a ledger of wrong entries": () => inLedger(ledger("Large", "", "HERE"), '{"id":"e#","at":0}'),
  "a ledger of many depots": () => inLedger(ledger("Large", "HERE", ""), '{"id":"d#","name":"D"}'),
  "a ledger of unknown fields": () => repeated(ledger("Large", "", "").slice(0, -1) + ",", '"f#":0', "}"),
};

export const shapeNames: readonly string[] = Object.keys(makers);

/** Made when it is asked for: all of them together would be a gigabyte. */
export const shapeOf = (name: string): Shape => {
  const make = makers[name];
  if (make === undefined) throw new Error(`no such shape: ${name}`);
  return { name, bytes: make() };
};
