/** A journal entry as it stands: an opening level, a transfer between tanks, a vent. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { tankName } from "../names/entity-words.ts";
import { PostingList } from "../entries/posting-list.tsx";
import { useApp, useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { type PlainKind, plainPostings } from "../entries/plain-entry.ts";
import type { JournalEntry } from "../../app/ledger/journal.ts";
import { TextField } from "../widgets/text-field.tsx";
import { firstOf } from "../widgets/unable.ts";
import "./records.css";

const kinds = [
  { id: "opening", name: "opening level" },
  { id: "transfer", name: "transfer between tanks" },
  { id: "vent", name: "vent" },
] as const;

const confirmWords: Readonly<Record<PlainKind, string>> = {
  opening: "Record opening",
  transfer: "Record transfer",
  vent: "Record vent",
};

interface EntryDialogProps extends DialogProps {
  /** An entry of these kinds that was wrong: as it stands, put right with a reason, in one step. */
  readonly wrong?: JournalEntry;
}

/** What an entry of these kinds was made from; null: it is of another kind. */
const partsOf = (entry: JournalEntry | undefined) => {
  const kind = kinds.find(({ id }) => id === entry?.kind)?.id;
  if (entry === undefined || kind === undefined) return null;
  const tankOf = (isIn: boolean): string | null =>
    entry.postings.find(({ account, grams }) => account.kind === "tank" && grams > 0 === isIn)?.account.ownerId ?? null;
  const sourceId = entry.postings.find(({ account }) => account.kind === "source")?.account.ownerId ?? null;
  const massKg = Math.max(...entry.postings.map(({ grams }) => grams)) / 1000;
  return {
    kind,
    tankId: tankOf(kind === "opening"),
    toId: kind === "transfer" ? tankOf(true) : null,
    sourceId,
    massKg,
  };
};

/** Whether an entry can be put right here: a closing, a departure and the like have their own dialogs. */
export const isCorrectable = (entry: JournalEntry): boolean => partsOf(entry) !== null && entry.postings.length === 2;

export const EntryDialog = ({ request, close, wrong }: EntryDialogProps) => {
  const session = useSession();
  const before = partsOf(wrong);
  const [reason, setReason] = useState("");
  const plan = useApp((state) => state.current?.plan ?? null);
  const hasEntry = useApp((state) => (state.current?.view.past.length ?? 0) > 0);
  const [kind, setKind] = useState<PlainKind>(before?.kind ?? (hasEntry ? "transfer" : "opening"));
  const [at, setAt] = useState(wrong?.at ?? request.at ?? plan?.asOfAt ?? 0);
  const [tankId, setTankId] = useState(
    before?.tankId ?? (request.subject?.kind === "tank" ? request.subject.id : null),
  );
  const [toId, setToId] = useState<string | null>(before?.toId ?? null);
  const [sourceId, setSourceId] = useState<string | null>(before?.sourceId ?? null);
  const [massKg, setMassKg] = useState<number | null>(before?.massKg ?? null);
  const [note, setNote] = useState(wrong?.note ?? "");
  const [fault, setFault] = useState<string | null>(null);
  if (plan === null) return null;
  const tank = plan.tanks.find(({ id }) => id === tankId) ?? plan.tanks[0];
  if (tank === undefined)
    return (
      <Dialog title="Journal entry" width="narrow" onClose={close}>
        <p className="form-advice">There is no tank yet. Add one in Depots.</p>
      </Dialog>
    );
  const others = plan.tanks.filter(({ id, propellantId }) => id !== tank.id && propellantId === tank.propellantId);
  const toTank = others.find(({ id }) => id === toId) ?? others[0] ?? null;
  const source = plan.sources.find(({ id }) => id === sourceId) ?? plan.sources[0];
  const postings = plainPostings({ kind, tank, toTank, sourceId: source?.id ?? null, massKg: massKg ?? 0 });
  const write = async (): Promise<boolean> => {
    if (postings === null) return false;
    const input = {
      id: `entry-${crypto.randomUUID()}`,
      at,
      kind,
      subjectKey: null,
      note,
      postings: [...postings],
    };
    const reply =
      wrong === undefined
        ? await session.command("record.entry", input)
        : await session.command("record.correct", {
            wrong: { kind: "entry", id: wrong.id },
            reason: reason.trim(),
            record: "record.entry",
            input,
          });
    if (!reply.ok) setFault(reply.failure.message);
    return reply.ok;
  };
  const tankChoices = plan.tanks.map(({ id }) => ({ id, name: tankName(plan, id) }));
  return (
    <Dialog
      title={wrong === undefined ? "Journal entry" : "Correct journal entry"}
      width="wide"
      confirm={wrong === undefined ? confirmWords[kind] : "Correct entry"}
      unable={firstOf(
        [postings === null, "Something is missing: a mass, or where it goes."],
        [wrong !== undefined && reason.trim() === "", "Say why: the reason stands in the journal."],
      )}
      onConfirm={write}
      onClose={close}
      fault={fault}
    >
      <div className="record-halves">
        <div>
          <ChoiceField label="Kind" value={kind} choices={kinds} onCommit={setKind} />
          <InstantField label="Date" value={at} onCommit={setAt} />
          <ChoiceField
            label={kind === "opening" ? "Tank" : "From tank"}
            value={tank.id}
            choices={tankChoices}
            onCommit={setTankId}
          />
          {kind === "transfer" && (
            <ChoiceField
              label="To tank"
              value={toTank?.id ?? null}
              choices={others.map(({ id }) => ({ id, name: tankName(plan, id) }))}
              fault={others.length === 0 ? "No other tank holds this propellant." : null}
              onCommit={setToId}
            />
          )}
          {kind === "opening" && (
            <ChoiceField
              label="It came from"
              value={source?.id ?? null}
              choices={plan.sources.map(({ id, name }) => ({ id, name }))}
              fault={plan.sources.length === 0 ? "Add a source first, in Depots." : null}
              onCommit={setSourceId}
            />
          )}
          <NumberField
            label={kind === "opening" ? "Level" : "Mass"}
            unit="kg"
            min={0}
            isMinOpen
            max={1e9}
            decimals={3}
            value={massKg}
            onCommit={setMassKg}
          />
          <NoteField label="Note" value={note} onCommit={setNote} />
          {wrong !== undefined && <TextField label="Why" value={reason} most={200} isRequired onCommit={setReason} />}
        </div>
        <div className="record-preview" aria-live="polite">
          <FormSection title="Will be written">
            {wrong !== undefined && (
              <p className="form-advice">The wrong one is reversed in the same step; both stay in the journal.</p>
            )}
            {postings === null ? (
              <p className="form-advice">Fill in what happened.</p>
            ) : (
              <PostingList postings={postings} plan={plan} />
            )}
          </FormSection>
        </div>
      </div>
    </Dialog>
  );
};
