/** A record that is put right in its own form: what was recorded, the reason that is asked for, and the words of the dialog. */
import { type ReactNode, useState } from "react";
import type { RecordInput } from "../../app/records/record-input.ts";
import type { SubjectRecord } from "../../app/records/recorded-as.ts";
import type { Wrong } from "../../app/records/record-correct.ts";
import { TextField } from "../widgets/text-field.tsx";

/** The entry that was wrong, and what it was recorded as. */
export interface Correcting<N extends SubjectRecord> {
  readonly entryId: string;
  readonly record: N;
  readonly input: RecordInput<N>;
}

const nouns: Readonly<Record<SubjectRecord, string>> = {
  "record.departure": "departure",
  "record.arrival": "arrival",
  "record.loss": "loss",
  "record.loading": "loading",
  "record.return": "return",
};

interface CorrectingParts {
  readonly title: string;
  readonly confirm: string;
  /** What the dialog needs to write both in one step; nothing where nothing was wrong. */
  readonly wrong: { readonly wrong?: { readonly what: Wrong; readonly reason: string } };
  /** The field for the reason; null: none is asked for. */
  readonly why: ReactNode;
}

/** `title`, `confirm`: what they are of a record that takes nobody's place. */
export const useCorrecting = (
  correcting: Pick<Correcting<SubjectRecord>, "entryId" | "record"> | undefined,
  name: string,
  plain: { readonly title: string; readonly confirm: string },
): CorrectingParts => {
  const [reason, setReason] = useState("");
  if (correcting === undefined) return { ...plain, wrong: {}, why: null };
  const noun = nouns[correcting.record];
  return {
    title: `Correct ${noun} of ${name}`,
    confirm: `Correct ${noun}`,
    wrong: { wrong: { what: { kind: "entry", id: correcting.entryId }, reason } },
    why: <TextField label="Why" value={reason} most={200} isRequired onCommit={setReason} />,
  };
};
