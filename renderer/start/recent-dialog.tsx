/** Opens a ledger that was open before, to work in it or only to show it. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { CheckField } from "../widgets/check-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { RecentList, useRecent } from "./recent-list.tsx";

export const RecentDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const known = useRecent();
  const wasShownOnly = useApp((state) => state.isShownOnly);
  const [isShownOnly, setShownOnly] = useState(wasShownOnly);
  return (
    <Dialog title="Recent ledgers" onClose={close}>
      {known?.length === 0 && <p className="form-advice">None yet: File, Open… asks for a ledger file.</p>}
      {known !== null && known.length > 0 && (
        <>
          <CheckField isOn={isShownOnly} onCommit={setShownOnly}>
            Read-only, to show it to others
          </CheckField>
          <RecentList
            known={known}
            onOpen={(choice) => {
              close();
              // First: an edit that is under way elsewhere must not slip in between.
              if (isShownOnly !== wasShownOnly) session.showOnly(isShownOnly);
              void session.open(() => session.client.host.openLedger(choice.token));
            }}
          />
        </>
      )}
    </Dialog>
  );
};
