/** A journal entry: what it records, its postings, and a way to take it back. */
import { useEffect, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { JournalEntry } from "../../app/ledger/journal.ts";
import { formatInstant, formatWithWeekday } from "../format/instant.ts";
import { formatMass } from "../format/mass.ts";
import { tankName } from "../names/entity-words.ts";
import { entryTitle } from "../names/account-words.ts";
import { PostingList } from "../entries/posting-list.tsx";
import { CorrectRecordDialog, isRecordOfSubject } from "../records/correct-record.tsx";
import { EntryDialog, isCorrectable } from "../records/entry-record.tsx";
import { ReverseDialog } from "../entries/take-back-dialogs.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { FormSection, StatedRow } from "../widgets/form-row.tsx";
import { Deselect } from "./deselect.tsx";

/** null while it is fetched, or if it does not exist (a notice then says so). */
const useEntry = (entryId: string): JournalEntry | null => {
  const session = useSession();
  const [entry, setEntry] = useState<JournalEntry | null>(null);
  useEffect(() => {
    let isWanted = true;
    void session.ask("journal.entry", { entryId }).then((found) => isWanted && setEntry(found));
    return () => {
      isWanted = false;
    };
  }, [session, entryId]);
  return entry;
};

export const EntryInspector = ({ entryId, plan }: { entryId: string; plan: PlanSnapshot }) => {
  const entry = useEntry(entryId);
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [isCorrecting, setCorrecting] = useState(false);
  const [isReversing, setReversing] = useState(false);
  const session = useSession();
  const all = useApp((state) => state.current?.view.readings ?? null);
  const readings = all?.filter((reading) => reading.entryId === entryId) ?? [];
  if (entry === null) return null;
  const title = entryTitle(plan, entry);
  const { reversesId } = entry;
  return (
    <article className="inspector">
      <header className="inspector-head">
        <p className="inspector-kind">
          journal entry
          <Deselect />
        </p>
        <h2>{title}</h2>
      </header>
      <StatedRow label="Date" title={formatWithWeekday(entry.at)}>
        <span className="figures">{formatInstant(entry.at)}</span>
      </StatedRow>
      <StatedRow label="Recorded">
        <span className="figures">{formatInstant(Math.floor(entry.recordedAt / 60_000) * 60_000)}</span>
      </StatedRow>
      <StatedRow label="By">{entry.author === "" ? "not stated" : entry.author}</StatedRow>
      {reversesId !== null && (
        <StatedRow label="Reverses">
          <Button look="link" onPress={() => session.select({ kind: "entry", id: reversesId })}>
            an earlier entry
          </Button>
        </StatedRow>
      )}
      {entry.note !== "" && <p className="form-advice">{entry.note}</p>}
      {readings.map(({ id, tankId, massKg, sigmaKg }) => (
        <StatedRow key={id} label={`Level read, ${tankName(plan, tankId)}`}>
          <Button look="link" onPress={() => session.select({ kind: "reading", id })}>
            <span className="figures">
              {formatMass(massKg)} ± {formatMass(sigmaKg)}
            </span>
          </Button>
        </StatedRow>
      ))}
      <FormSection title="Postings">
        <PostingList postings={entry.postings} plan={plan} />
      </FormSection>
      {!isReadOnly && entry.kind !== "reversal" && (
        <footer className="inspector-foot">
          {(isCorrectable(entry) || isRecordOfSubject(entry)) && (
            <Button onPress={() => setCorrecting(true)}>Correct…</Button>
          )}
          <Button look="danger" onPress={() => setReversing(true)}>
            Reverse entry…
          </Button>
        </footer>
      )}
      {isCorrecting && isRecordOfSubject(entry) && (
        <CorrectRecordDialog entryId={entry.id} close={() => setCorrecting(false)} />
      )}
      {isCorrecting && isCorrectable(entry) && (
        <EntryDialog
          request={{ action: "record.entry", subject: null, at: null }}
          wrong={entry}
          close={() => setCorrecting(false)}
        />
      )}
      {isReversing && <ReverseDialog entryId={entry.id} title={title} onClose={() => setReversing(false)} />}
    </article>
  );
};
