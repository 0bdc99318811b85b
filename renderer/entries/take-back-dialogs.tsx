/** Reversing an entry, or withdrawing a reading, with the reason. */
import { useState } from "react";
import { useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { NoteField } from "../widgets/note-field.tsx";

interface TakeBackDialogProps {
  readonly title: string;
  readonly confirm: string;
  readonly advice: string;
  /** Answers what went wrong, in words; null: done. */
  readonly onConfirm: (reason: string) => Promise<string | null>;
  readonly onClose: () => void;
}

const TakeBackDialog = ({ title, confirm, advice, onConfirm, onClose }: TakeBackDialogProps) => {
  const [reason, setReason] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const send = async (): Promise<boolean> => {
    if (reason.trim() === "") {
      setFault("Say why: the reason stands in the journal.");
      return false;
    }
    const refusal = await onConfirm(reason.trim());
    setFault(refusal);
    return refusal === null;
  };
  return (
    <Dialog title={title} width="narrow" isDanger confirm={confirm} onConfirm={send} onClose={onClose} fault={fault}>
      <p className="form-advice">{advice}</p>
      <NoteField label="Reason" value={reason} isRequired onCommit={setReason} />
    </Dialog>
  );
};

export const ReverseDialog = ({ entryId, title, onClose }: { entryId: string; title: string; onClose: () => void }) => {
  const session = useSession();
  return (
    <TakeBackDialog
      title={`Reverse “${title}”?`}
      confirm="Reverse entry"
      advice="A reversal is written; both stay in the journal. A flight or sortie that it speaks of goes back to the status it had before."
      onConfirm={async (reason) => {
        const reply = await session.command("record.reverse", { entryId, reason });
        return reply.ok ? null : reply.failure.message;
      }}
      onClose={onClose}
    />
  );
};

export const WithdrawDialog = ({ readingId, onClose }: { readingId: string; onClose: () => void }) => {
  const session = useSession();
  return (
    <TakeBackDialog
      title="Withdraw this reading?"
      confirm="Withdraw"
      advice="It stays in the ledger, marked as withdrawn; what it booked is reversed."
      onConfirm={async (reason) => {
        const reply = await session.command("record.withdrawReading", { readingId, reason });
        return reply.ok ? null : reply.failure.message;
      }}
      onClose={onClose}
    />
  );
};
