/** The records: journal entries of balanced postings over accounts, and gauge readings. Recorded mass is whole grams. */
import { z } from "zod";
import { id, instant, massKg, note } from "../ground/quantity.ts";

/**
 * Accounts: `tank` (what is in one tank), `source` (what an outside source gave, negative), and, one each for every
 * depot or craft, where mass goes. Mass aboard a tanker on its way is on the `transit` account of the flight's key.
 */
export const accountKinds = [
  "tank",
  "source",
  "transit",
  "boil-off",
  "in-flight loss",
  "handover loss",
  "residual",
  "vented",
  "burned",
  "consumed",
  "unaccounted",
] as const;
export type AccountKind = (typeof accountKinds)[number];

/** Which account: its kind and the tank, source, flight key, depot or craft it belongs to. */
export const accountRef = z.strictObject({ kind: z.enum(accountKinds), ownerId: id });
export type AccountRef = Readonly<z.infer<typeof accountRef>>;

/** An account's stable id: `kind/owner`. */
export const accountId = (account: AccountRef): string => `${account.kind}/${account.ownerId}`;

/** One line of an entry: grams into (+) or out of (−) an account. */
export const posting = z.strictObject({
  account: accountRef,
  propellantId: id,
  grams: z.int().min(-1e12).max(1e12),
});

/**
 * What an entry records. `opening`, `reading` and `return` state the level of the tanks they touch, and `closing` that of
 * those it measured; of the others it books the loss that the model says, which states nothing. All else moves mass.
 */
export const entryKinds = [
  "opening",
  "departure",
  "arrival",
  "loss of flight",
  "loading",
  "return",
  "transfer",
  "vent",
  "reading",
  "closing",
  "reversal",
] as const;
export type EntryKind = (typeof entryKinds)[number];

export const journalEntry = z.strictObject({
  id,
  at: instant,
  /** A metered handover flowed evenly from here to `at`; absent: it took effect at once. */
  sinceAt: instant.optional(),
  kind: z.enum(entryKinds),
  /** The flight's or sortie's key, where the entry comes from one. */
  subjectKey: id.nullable(),
  /** The entry that this one takes back. */
  reversesId: id.nullable(),
  note,
  author: z.string().max(80),
  /** When it was written down. */
  recordedAt: instant,
  postings: z.array(posting).min(2).max(200),
});
export type Posting = Readonly<z.infer<typeof posting>>;
export type JournalEntry = Readonly<z.infer<typeof journalEntry>>;

/** A gauge reading: a measured level with its standard uncertainty (1 σ). */
export const reading = z.strictObject({
  id,
  tankId: id,
  at: instant,
  massKg,
  sigmaKg: z.number().gt(0, "a reading needs its uncertainty, above 0 kg").max(1e9),
  /** The entry that brought the books to the reading, if the reading was taken into the books. */
  entryId: id.nullable(),
  /** A reading found to be wrong is withdrawn, not deleted. */
  isWithdrawn: z.boolean(),
  note,
});
export type Reading = Readonly<z.infer<typeof reading>>;

/** kg to whole grams, half away from zero. */
export const toGrams = (kg: number): number => Math.sign(kg) * Math.round(Math.abs(kg) * 1000);

/** Whole grams to kg. */
export const toKg = (grams: number): number => grams / 1000;
