/** What a gate of `npm run check` is, and how a fixture proves that it bites. */

/** What a gate found. A gate that looked at no file proves nothing, and fails. */
export interface Look {
  readonly files: number;
  /** One fault a line: where, what. */
  readonly faults: readonly string[];
}

/** A fixture that must fail, and the words by which its fault is known. */
export interface Bite {
  readonly name: string;
  /** Runs the gate's own look over the fixture. */
  look(): Promise<Look>;
  /** Each must occur in some fault. */
  readonly mustFind: readonly RegExp[];
}

export interface Gate {
  readonly name: string;
  /** What a person types or does to mend the usual fault. */
  readonly fix: string;
  look(): Promise<Look>;
  readonly bites: readonly Bite[];
}
