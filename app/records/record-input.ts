/** What each record takes, as whoever records it states it: the schema of the contract and the type of the code. */
import { z } from "zod";
import { id, instant, massKg, note } from "../ground/quantity.ts";
import { journalEntry } from "../ledger/journal.ts";

/** The records whose postings can be seen before they are written. */
export const recordNames = [
  "record.reading",
  "record.departure",
  "record.arrival",
  "record.loss",
  "record.loading",
  "record.return",
  "record.standDown",
  "record.closing",
] as const;
export type RecordName = (typeof recordNames)[number];

const measured = z.strictObject({ tankId: id, massKg, sigmaKg: z.number().gt(0).max(1e9) });

const departed = z.strictObject({
  flightId: id,
  at: instant,
  loads: z.array(z.strictObject({ propellantId: id, loadedKg: massKg })).max(12),
  /** Of a flight from a depot; absent: with the chilldown and handover loss of its class, tanks in order of drawing. */
  drawn: z
    .array(z.strictObject({ tankId: id, massKg }))
    .max(60)
    .optional(),
  note,
});

const loaded = z.strictObject({
  sortieId: id,
  at: instant,
  drawn: z.array(z.strictObject({ tankId: id, massKg })).max(60),
  handoverLoss: z.array(z.strictObject({ propellantId: id, massKg })).max(12),
  note,
});

const arrived = z.strictObject({
  flightId: id,
  /** The end of the handover. */
  at: instant,
  /** Of a metered handover its beginning, the arrival; absent: at once. */
  sinceAt: instant.optional(),
  /** How the flow went, in even stretches; absent: evenly from `sinceAt` to `at`. Only the shares count, tank by tank. */
  course: z
    .array(z.strictObject({ tankId: id, fromAt: instant, untilAt: instant, massKg }))
    .max(500)
    .optional(),
  taken: z.array(z.strictObject({ tankId: id, massKg })).max(60),
  handoverLoss: z.array(z.strictObject({ propellantId: id, massKg })).max(12),
  leftAboard: z.array(z.strictObject({ propellantId: id, massKg })).max(12),
  vented: z.array(z.strictObject({ propellantId: id, massKg })).max(12),
  note,
  /** Its departure, where that has no record yet: recorded in the same step. */
  departure: departed.optional(),
});

/** Arrivals before it that have no record yet, each with its departure where that lacks one, too: recorded in the same step. */
const arrivals = z.array(arrived).max(20).optional();

export const recordInputs = {
  "record.reading": z.strictObject({
    id,
    tankId: id,
    at: instant,
    massKg,
    sigmaKg: z.number().gt(0).max(1e9),
    takeIntoBooks: z.boolean(),
    note,
  }),
  /** What was wrong, and the record as it should have been. */
  "record.correct": z.strictObject({
    wrong: z.strictObject({ kind: z.enum(["entry", "reading"]), id }),
    reason: note,
    record: z.enum([...recordNames, "record.entry"]),
    /** Of that record. */
    input: z.unknown(),
  }),
  "record.withdrawReading": z.strictObject({ readingId: id, reason: note }),
  "record.departure": departed.extend({ arrivals }),
  "record.arrival": arrived,
  "record.loss": z.strictObject({ flightId: id, at: instant, note }),
  "record.return": z.strictObject({
    sortieId: id,
    at: instant,
    aboard: z.array(z.strictObject({ propellantId: id, massKg })).max(12),
    note,
    /** Its loading, where that has no record yet: recorded in the same step. */
    loading: loaded.optional(),
  }),
  "record.standDown": z.strictObject({
    sortieId: id,
    /** When it was known. */
    at: instant,
    note,
  }),
  "record.closing": z.strictObject({ depotId: id, at: instant, measured: z.array(measured).max(60), note }),
  "record.entry": journalEntry.omit({ author: true, recordedAt: true, reversesId: true }),
  "record.reverse": z.strictObject({ entryId: id, reason: note }),
  "record.loading": loaded.extend({ arrivals }),
} as const;

/** What a record takes, checked. */
export type RecordInput<N extends keyof typeof recordInputs> = Readonly<z.infer<(typeof recordInputs)[N]>>;
