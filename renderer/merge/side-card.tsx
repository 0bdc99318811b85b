/** What one site recorded of a thing: what, when it happened, who wrote it down and when. */
import type { RecordView } from "../../app/merge/merge-view.ts";
import { formatInstant, formatWithWeekday } from "../format/instant.ts";

const writtenBy = ({ author, recordedAt }: RecordView): string => {
  if (author === null || recordedAt === null) return "Who recorded it is not kept.";
  return `Recorded by ${author}, ${formatInstant(recordedAt)} UTC`;
};

export const SideCard = ({ title, records }: { readonly title: string; readonly records: readonly RecordView[] }) => (
  <section className="merge-side" aria-label={title}>
    <h3>{title}</h3>
    <ul>
      {records.map((record) => (
        <li key={`${record.title}/${record.at ?? ""}/${record.recordedAt ?? ""}`}>
          <p className="merge-record">
            {record.isTakenBack ? "Reversed: " : ""}
            {record.title}
          </p>
          {record.at !== null && (
            <p className="figures" title={formatWithWeekday(record.at)}>
              {formatInstant(record.at)} UTC
            </p>
          )}
          <p className="merge-quiet">{writtenBy(record)}</p>
          {record.note !== "" && <p className="merge-quiet">“{record.note}”</p>}
        </li>
      ))}
    </ul>
  </section>
);
