/** Shows the dialog that was asked for, and makes each entry of the table of dialogs carry out its action. */
import type { ActionId } from "../../app/contract/actions.ts";
import { NO_LEDGER } from "../actions/reasons.ts";
import { useAction } from "../actions/use-actions.ts";
import { type DialogEntry, dialogs } from "../dialogs.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { READ_ONLY, firstOf } from "../widgets/unable.ts";

const entries = Object.entries(dialogs) as readonly (readonly [ActionId, DialogEntry])[];

export const DialogHost = () => {
  const request = useApp((state) => state.dialog);
  const { closeDialog } = useSession();
  const entry = request === null ? undefined : dialogs[request.action];
  return (
    <>
      {entries.map(([id, each]) => (
        <Opener key={id} id={id} needs={each.needs} />
      ))}
      {request !== null && entry !== undefined && <entry.component request={request} close={closeDialog} />}
    </>
  );
};

const Opener = ({ id, needs }: { id: ActionId; needs: DialogEntry["needs"] }) => {
  const session = useSession();
  const has = useApp((state) => state.ledger !== null);
  const isWritable = useApp((state) => state.ledger !== null && state.ledger.readOnlyBecause === null);
  const unable =
    needs === "nothing" ? null : firstOf([!has, NO_LEDGER], [needs === "writable ledger" && !isWritable, READ_ONLY]);
  useAction(id, () => session.openDialog(id), { unable });
  return null;
};
