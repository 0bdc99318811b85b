/** The instant from which the forecast starts. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { formatInstant } from "../format/instant.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { InstantField } from "../widgets/instant-field.tsx";

export const AsOfDialog = ({ request, close }: DialogProps) => {
  const session = useSession();
  const present = useApp((state) => state.ledger?.asOfAt ?? null);
  const [at, setAt] = useState<number | null>(request.at ?? present);
  const [fault, setFault] = useState<string | null>(null);
  const set = async (): Promise<boolean> => {
    const reply = await session.command("ledger.asOf", { asOfAt: at });
    if (!reply.ok) setFault(reply.failure.message);
    return reply.ok;
  };
  return (
    <Dialog title="As-of date" width="narrow" confirm="Set" onConfirm={set} onClose={close} fault={fault}>
      <InstantField
        label="Forecast starts"
        value={at}
        emptyWords="the last record"
        autoFocus
        onCommit={setAt}
        onClear={() => setAt(null)}
      />
      <p className="form-advice">
        What is recorded up to then counts; the levels are carried forward to it by the loss model. Emptied, it follows
        the last record. It is now {present === null ? "not set" : formatInstant(present)}.
      </p>
    </Dialog>
  );
};
