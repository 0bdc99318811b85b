/** "Correct…" on a record of a flight or sortie: its own form, filled in with what was recorded; or why it cannot be, and what to do. */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { EntryKind } from "../../app/ledger/journal.ts";
import { useQuestion } from "../state/use-question.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Dialog } from "../widgets/dialog.tsx";
import { ArrivalForm, DepartureForm, LossForm } from "./flight-records.tsx";
import { standingEntries } from "./standing-entries.ts";
import { LoadingForm, ReturnForm } from "./sortie-records.tsx";

const kinds: ReadonlySet<EntryKind> = new Set<EntryKind>([
  "departure",
  "arrival",
  "loss of flight",
  "loading",
  "return",
]);

/** Whether an entry is put right here: those of flights and sorties are. */
export const isRecordOfSubject = ({ kind }: { readonly kind: EntryKind }): boolean => kinds.has(kind);

interface CorrectRecordProps {
  readonly entryId: string;
  readonly close: () => void;
}

/** Why it cannot be put right, and the way to the record that must be looked at first. */
const Refused = ({ entryId, why, close }: CorrectRecordProps & { readonly why: string }) => {
  const session = useSession();
  const show = async (): Promise<boolean> => {
    const entry = await session.ask("journal.entry", { entryId });
    const standing = entry?.subjectKey == null ? [] : await standingEntries(session, entry.subjectKey);
    const other = standing.find(({ id }) => id !== entryId);
    if (other === undefined) session.fail({ code: "not found", message: NO_OTHER, field: null });
    else session.select({ kind: "entry", id: other.id });
    return true;
  };
  return (
    <Dialog
      title="This record cannot be corrected yet"
      width="narrow"
      confirm="Show that record"
      onConfirm={show}
      onClose={close}
    >
      <p className="form-advice">{why}</p>
    </Dialog>
  );
};

const NO_OTHER = "No other record of it is in force.";

export const CorrectRecordDialog = ({ entryId, close }: CorrectRecordProps) => {
  const current = useApp((state) => state.current);
  const planCaseId = current?.plan.planCase.id ?? null;
  const asked = useQuestion("recorded", "record.recorded", { entryId, planCaseId });
  const recorded = asked.value;
  if (asked.failure !== null) return <Refused entryId={entryId} why={asked.failure.message} close={close} />;
  if (recorded === null || current === null) return null;
  const { plan } = current;
  const flight = "flightId" in recorded.input ? recorded.input.flightId : null;
  const sortie = "sortieId" in recorded.input ? recorded.input.sortieId : null;
  const flightRow = plan.flights.find(({ id }) => id === flight);
  const sortieRow = plan.sorties.find(({ id }) => id === sortie);
  if (flightRow === undefined && sortieRow === undefined)
    return (
      <Dialog title="This record cannot be corrected here" width="narrow" onClose={close}>
        <p className="form-advice">
          This plan case does not have the {flight === null ? "sortie" : "flight"} that it speaks of. Open a plan case
          that has it.
        </p>
      </Dialog>
    );
  const common = { current, chooser: null, close };
  switch (recorded.record) {
    case "record.departure":
      return flightRow && <DepartureForm row={flightRow} {...common} correcting={{ entryId, ...recorded }} />;
    case "record.arrival":
      return flightRow && <ArrivalForm row={flightRow} {...common} correcting={{ entryId, ...recorded }} />;
    case "record.loss":
      return flightRow && <LossForm row={flightRow} {...common} correcting={{ entryId, ...recorded }} />;
    case "record.loading":
      return sortieRow && <LoadingForm row={sortieRow} {...common} correcting={{ entryId, ...recorded }} />;
    case "record.return":
      return sortieRow && <ReturnForm row={sortieRow} {...common} correcting={{ entryId, ...recorded }} />;
    default:
      return missingCase(recorded);
  }
};
