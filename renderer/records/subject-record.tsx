/** A record that speaks of one row: which rows it can speak of, the field that chooses one, then the form for it. */
import { type ReactNode, useState } from "react";
import type { RecordName } from "../../app/records/record-input.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { formatDate } from "../format/instant.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { subjectAmong } from "./choose-subject.ts";

interface Subject {
  readonly id: string;
  readonly name: string;
}

export interface SubjectRecordProps<R> {
  readonly row: R;
  readonly current: CaseForecast;
  /** The field that chooses the row, first in the form. */
  readonly chooser: ReactNode;
  readonly close: () => void;
}

interface SubjectKind<R> {
  readonly kind: "flight" | "sortie";
  readonly label: string;
  readonly rowsFor: (plan: PlanSnapshot, record: RecordName) => readonly R[];
  /** The instant shown beside its name, ms UTC. */
  readonly dueAt: (row: R) => number;
}

interface SubjectRecord<R> {
  readonly record: RecordName;
  readonly title: string;
  /** What is said when there is no row to speak of. */
  readonly none: string;
  readonly Form: (props: SubjectRecordProps<R>) => ReactNode;
}

/** The dialog of one record of this kind of row: begins with the row selected, if the record can speak of it. */
export const subjectRecord =
  <R extends Subject>({ kind, label, rowsFor, dueAt }: SubjectKind<R>) =>
  ({ record, title, none, Form }: SubjectRecord<R>) =>
    function SubjectRecordDialog({ request, close }: DialogProps) {
      const current = useApp((state) => state.current);
      const [id, setId] = useState(request.subject?.kind === kind ? request.subject.id : null);
      if (current === null) return null;
      const rows = rowsFor(current.plan, record);
      const row = subjectAmong(rows, id);
      if (row === undefined)
        return (
          <Dialog title={title} width="narrow" onClose={close}>
            <p className="form-advice">{none}</p>
          </Dialog>
        );
      const chooser = (
        <ChoiceField
          label={label}
          value={row.id}
          choices={rows.map((each) => ({ id: each.id, name: each.name, note: formatDate(dueAt(each)) }))}
          onCommit={setId}
        />
      );
      return <Form key={row.id} row={row} current={current} chooser={chooser} close={close} />;
    };
