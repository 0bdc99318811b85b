/** Issues the report: asks what it is for, says what issuing means, and keeps it in the ledger. */
import { useState } from "react";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { TextField } from "../widgets/text-field.tsx";
import { askedChoices, showIssue, useShown } from "./report-choices.ts";

export const IssueDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const shownNow = useShown();
  const caseName = useApp(
    ({ ledger, planCaseId }) => ledger?.planCases.find(({ id }) => id === planCaseId)?.name ?? "",
  );
  const [note, setNote] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const issue = async (): Promise<boolean> => {
    const choices = askedChoices(shownNow, session.store.get());
    if (choices === null) return true;
    const reply = await session.work.begin("report.issue", { choices, note }, { title: "Issuing the report" }).reply;
    if (!reply.ok) {
      setFault(reply.failure.message);
      return false;
    }
    await session.refresh();
    showIssue(reply.value.number);
    session.show("reports");
    session.tell("information", `Issue ${reply.value.number} is kept in the ledger.`);
    return true;
  };
  return (
    <Dialog
      title={`Issue the report of ${caseName}`}
      confirm="Issue report"
      onConfirm={issue}
      onClose={close}
      fault={fault}
    >
      <TextField label="Issued for" value={note} most={200} autoFocus placeholder="none" onCommit={setNote} />
      <p className="form-advice">
        The ledger keeps the finished report under the next number, with the date, your name and a hash of what it was
        made from. It prints byte for byte the same, always, whatever becomes of the plan. An issue cannot be changed or
        taken back; a later one can say more.
      </p>
    </Dialog>
  );
};
