/** What the merge would write, before anything is written; what of the plans differs; which cases may be taken over. */
import type { ReactNode } from "react";
import type { MergeView, RecordView } from "../../app/merge/merge-view.ts";
import { UNDO_WORDS, outcomeSentences, planLines } from "../../app/merge/outcome-words.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber, formatSigned, withUnit } from "../format/number.ts";
import { CheckField } from "../widgets/check-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { Notice } from "../widgets/notice.tsx";

interface Row extends RecordView {
  readonly id: string;
}

const columns: readonly Column<Row>[] = [
  {
    id: "at",
    heading: "When, UTC",
    value: ({ at }) => at,
    text: ({ at }) => (at === null ? "" : formatInstant(at)),
  },
  {
    id: "title",
    heading: "Record",
    isWide: true,
    value: ({ title, isTakenBack }) => `${isTakenBack ? "Reversed: " : ""}${title}`,
  },
  { id: "author", heading: "Recorded by", value: ({ author }) => author },
];

/** A record's masses, under its row. */
const massList = ({ masses }: Row): ReactNode => (
  <ul className="merge-mass-list">
    {masses.map(({ label, massKg }) => (
      <li key={label}>
        {label} <span className="figures">{withUnit(formatSigned(massKg, 3), "kg")}</span>
      </li>
    ))}
  </ul>
);

const Lines = ({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) =>
  lines.length > 0 && (
    <section aria-label={title}>
      <h3>{title}</h3>
      <ul className="sentence-list merge-lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );

interface MergeSummaryProps {
  readonly view: MergeView;
  readonly takeCases: readonly string[];
  readonly onChooseCase: (planCaseId: string, isTaken: boolean) => void;
}

export const MergeSummary = ({ view, takeCases, onChooseCase }: MergeSummaryProps) => {
  const { outcome, cases } = view;
  const rows = view.incoming.map((record, index) => ({ ...record, id: `${index}` }));
  return (
    <>
      {outcome.blocked.length > 0 && (
        <Notice tone="failure">
          It cannot be written as it stands, and nothing of it will be:
          <ul className="sentence-list">
            {outcome.blocked.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </Notice>
      )}
      <section aria-label="What will be written">
        <h2>What will be written</h2>
        {outcome.isNothing ? (
          <p className="form-advice">Nothing: all that they recorded is here, or was decided for ours.</p>
        ) : (
          <ul className="sentence-list">
            {[...outcomeSentences(outcome), UNDO_WORDS].map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </section>
      {rows.length > 0 && (
        <DataTable
          caption={
            view.incomingCount > rows.length
              ? `The first ${formatNumber(rows.length)} of ${formatNumber(view.incomingCount)} records that come in`
              : "Records that come in"
          }
          columns={columns}
          rows={rows}
          rowId={({ id }) => id}
          empty="None."
          detail={massList}
        />
      )}
      <div className="merge-halves">
        <Lines title="Flights and sorties follow" lines={outcome.statuses} />
        <Lines title="Also added: records refer to them" lines={outcome.rowsAlong} />
        <Lines title="The plans differ, and are not merged" lines={planLines(view)} />
        {cases.length > 0 && (
          <section aria-label="Plan cases">
            <h3>Take a plan case of theirs over as a new case</h3>
            {cases.map(({ id, name, flights, sorties, isHereToo }) => (
              <CheckField key={id} isOn={takeCases.includes(id)} onCommit={(isTaken) => onChooseCase(id, isTaken)}>
                {name}: {formatNumber(flights)} flights, {formatNumber(sorties)} sorties
                {isHereToo ? "; ours differs and stays" : ""}
              </CheckField>
            ))}
          </section>
        )}
      </div>
    </>
  );
};
