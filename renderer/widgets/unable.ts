/** Why something cannot be pressed: the first of the reasons that holds, in words; null: it can be. */

/** Beside what would change a ledger that lets nothing be changed. */
export const READ_ONLY = "The ledger is read-only; the status line says why.";

/** `firstOf([isReadOnly, READ_ONLY], [isOld, "The plan has changed since."])`. */
export const firstOf = (...reasons: readonly (readonly [holds: boolean, words: string])[]): string | null =>
  reasons.find(([holds]) => holds)?.[1] ?? null;
