/** Carries out the report's actions wherever the person is: saving in every form, printing. */
import { useLayoutEffect } from "react";
import type { ActionId } from "../../app/contract/actions.ts";
import type { ReportForm } from "../../app/ledger/report-request.ts";
import { useAction } from "../actions/use-actions.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { shown, openChoices } from "./report-choices.ts";
import { saveReport } from "./save-report.ts";

const saving = [
  ["report.pdf", "pdf"],
  ["report.html", "html"],
  ["report.xlsx", "xlsx"],
  ["report.ics", "ics"],
] as const satisfies readonly (readonly [ActionId, ReportForm])[];

export const ReportActions = () => {
  const session = useSession();
  const isReady = useApp((state) => state.phase === "ready" && state.planCaseId !== null);
  const unable = isReady ? null : "There is no plan case to report.";
  const path = useApp((state) => state.ledger?.path ?? null);
  useLayoutEffect(() => {
    if (path !== null) openChoices(path);
  }, [path]);
  const print = (): void => {
    // The view prints as soon as its pages lie there.
    shown.set({ isToPrint: true });
    session.show("reports");
  };
  useAction("report.print", print, { unable });
  return (
    <>
      {saving.map(([action, form]) => (
        <SaveAction key={action} action={action} form={form} unable={unable} />
      ))}
    </>
  );
};

interface SaveActionProps {
  readonly action: ActionId;
  readonly form: ReportForm;
  readonly unable: string | null;
}

const SaveAction = ({ action, form, unable }: SaveActionProps) => {
  const session = useSession();
  useAction(action, () => void saveReport(session, form, null), { unable });
  return null;
};
