/** What may be recorded of the thing selected, as its state allows. */
import { useState } from "react";
import type { ActionId } from "../../app/contract/actions.ts";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import type { EntryKind } from "../../app/ledger/journal.ts";
import { standingEntries } from "../records/standing-entries.ts";
import { CorrectRecordDialog } from "../records/correct-record.tsx";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";

type Offer = readonly [ActionId, string];

/** The records that can come next. */
export const offersFor = (kind: EntityKind, status: string | undefined): readonly Offer[] => {
  if (kind === "tank") return [["record.reading", "Record a reading…"]];
  if (kind === "depot") return [["record.closing", "Close the month…"]];
  const isAhead = status === "planned" || status === "firm";
  if (kind === "flight") {
    if (isAhead) return [["record.departure", "Record departure…"]];
    if (status !== "departed") return [];
    return [
      ["record.arrival", "Record arrival…"],
      ["record.loss", "Record its loss…"],
    ];
  }
  if (kind === "sortie") {
    if (isAhead)
      return [
        ["record.loading", "Record loading…"],
        ["record.standDown", "Record that it stood down…"],
      ];
    return status === "departed" ? [["record.return", "Record return…"]] : [];
  }
  return [];
};

/** The record that made a flight or sortie what it is, by its status: its kind, and what it is called. */
const madeBy: {
  readonly [K in EntityKind]?: { readonly [status: string]: readonly [kind: EntryKind, noun: string] };
} = {
  flight: {
    departed: ["departure", "departure"],
    arrived: ["arrival", "arrival"],
    lost: ["loss of flight", "loss"],
  },
  sortie: { departed: ["loading", "loading"], flown: ["return", "return"] },
};

interface CorrectButtonProps {
  readonly subjectKey: string;
  readonly kind: EntryKind;
  readonly noun: string;
}

/** What happened without moving any mass has no entry: its status is all that there is of it. */
const NO_ENTRY = "It moved no mass, so there is no journal entry to correct. Change its status and dates in the form.";

/** Opens the form of the record that stands in the journal; says so where none does. */
const CorrectButton = ({ subjectKey, kind, noun }: CorrectButtonProps) => {
  const session = useSession();
  const [entryId, setEntryId] = useState<string | null>(null);
  const open = async (): Promise<void> => {
    const entry = (await standingEntries(session, subjectKey)).find((row) => row.kind === kind);
    if (entry !== undefined) setEntryId(entry.id);
    else session.fail({ code: "not found", message: NO_ENTRY, field: null });
  };
  return (
    <>
      <Button onPress={() => void open()}>Correct its {noun}…</Button>
      {entryId !== null && <CorrectRecordDialog entryId={entryId} close={() => setEntryId(null)} />}
    </>
  );
};

export const RecordButtons = <K extends EntityKind>({ kind, row }: { kind: K; row: Entity<K> }) => {
  const session = useSession();
  const { status, key } = row as { readonly status?: string; readonly key?: string };
  const made = madeBy[kind]?.[status ?? ""];
  return (
    <>
      {offersFor(kind, status).map(([action, label], index) => (
        <Button
          key={action}
          look={index === 0 ? "primary" : "plain"}
          onPress={() => session.openDialog(action, { subject: { kind, id: row.id } })}
        >
          {label}
        </Button>
      ))}
      {made !== undefined && key !== undefined && <CorrectButton subjectKey={key} kind={made[0]} noun={made[1]} />}
    </>
  );
};
