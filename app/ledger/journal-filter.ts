/** Which entries of the journal are asked for, and which part of them. */
import { z } from "zod";
import { id, instant } from "../ground/quantity.ts";
import { journalEntry } from "./journal.ts";

export const journalFilter = z.strictObject({
  fromAt: instant.nullable(),
  untilAt: instant.nullable(),
  accountKind: journalEntry.shape.postings.element.shape.account.shape.kind.nullable(),
  ownerId: id.nullable(),
  propellantId: id.nullable(),
  subjectKey: id.nullable(),
  text: z.string().max(200),
  offset: z.int().min(0),
  limit: z.int().min(1).max(1000),
});
export type JournalFilter = Readonly<z.infer<typeof journalFilter>>;
