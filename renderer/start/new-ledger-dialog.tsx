/** A new, empty ledger: its programme's name, then the host asks where it goes. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { beginPlan } from "./first-case.ts";
import { TextField } from "../widgets/text-field.tsx";

export const NewLedgerDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const [programme, setProgramme] = useState("");
  const [isAsked, setAsked] = useState(false);
  const make = async (): Promise<boolean> => {
    setAsked(true);
    if (programme === "") return false;
    // An empty ledger is there to be filled.
    if (session.store.get().isShownOnly) session.showOnly(false);
    await session.open(() => session.client.host.createLedger(programme));
    await beginPlan(session);
    return true;
  };
  return (
    <Dialog title="New ledger" width="narrow" confirm="Make it" onConfirm={make} onClose={close}>
      <TextField
        label="Programme"
        value={programme}
        most={80}
        isRequired
        autoFocus
        fault={isAsked && programme === "" ? "A ledger needs the name of its programme." : null}
        onCommit={setProgramme}
      />
      <p className="form-advice">
        A ledger is one file: the depots, craft, plans and records of one programme. It begins empty, with one plan
        case; the inspector then lists what it needs, in order.
      </p>
    </Dialog>
  );
};
