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

export const EntryDialog = ({ request, close }: DialogProps) => {
  const session = useSession();
  const plan = useApp((state) => state.current?.plan ?? null);
  const hasEntry = useApp((state) => (state.current?.view.past.length ?? 0) > 0);
  const [kind, setKind] = useState<PlainKind>(hasEntry ? "transfer" : "opening");
  const [at, setAt] = useState(request.at ?? plan?.asOfAt ?? 0);
  const [tankId, setTankId] = useState(request.subject?.kind === "tank" ? request.subject.id : null);
  const [toId, setToId] = useState<string | null>(null);
  const [sourceId, setSourceId] = useState<string | null>(null);
  const [massKg, setMassKg] = useState<number | null>(null);
  const [note, setNote] = useState("");
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
    const reply = await session.command("record.entry", {
      id: `entry-${crypto.randomUUID()}`,
      at,
      kind,
      subjectKey: null,
      note,
      postings: [...postings],
    });
    if (!reply.ok) setFault(reply.failure.message);
    return reply.ok;
  };
  const tankChoices = plan.tanks.map(({ id }) => ({ id, name: tankName(plan, id) }));
  return (
    <Dialog
      title="Journal entry"
      width="wide"
      confirm={confirmWords[kind]}
      unable={postings === null ? "Something is missing: a mass, or where it goes." : null}
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
        </div>
        <div className="record-preview" aria-live="polite">
          <FormSection title="Will be written">
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
