/** The books of one depot and propellant over the months shown: statement, booked beside predicted, loss by cause. */
import { memo, useMemo, useState } from "react";
import type { Input } from "../../app/contract/contract.ts";
import { type BookReading, bookReadingAdvice, bookReadings } from "../../app/losses/book-reading.ts";
import { useQuestion } from "../state/use-question.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { ViewPart } from "../widgets/view-sheet.tsx";
import { ComparisonTable } from "./comparison-table.tsx";
import { MonthPlot } from "./month-plot.tsx";
import { StatementTable } from "./statement-table.tsx";

interface BooksProps {
  /** The same object for the same question: an answer that comes redraws this part of the view alone. */
  readonly asked: Input<"losses.statement"> | null;
  readonly depotId: string;
  readonly propellantId: string;
  /** "Tarn, hydrogen". */
  readonly names: string;
  readonly position: number;
  readonly labelOf: (fromAt: number) => string;
}

export const Books = memo(function Books({ asked, depotId, propellantId, names, position, labelOf }: BooksProps) {
  const { value: book, failure } = useQuestion("books", "losses.statement", asked);
  const [reading, setReading] = useState<BookReading>("as happened");
  const isOurs = (row: { readonly depotId: string; readonly propellantId: string }): boolean =>
    row.depotId === depotId && row.propellantId === propellantId;
  const statement = (reading === "as booked" ? book?.statements : book?.happened)?.find(isOurs);
  const comparisons = useMemo(
    () => (book?.comparisons ?? []).filter((row) => row.depotId === depotId && row.propellantId === propellantId),
    [book, depotId, propellantId],
  );
  if (failure !== null) {
    return (
      <p className="form-fault" role="alert">
        {failure.message}
      </p>
    );
  }
  if (statement === undefined) return null;
  return (
    <>
      <ViewPart>
        <div className="loss-reading">
          <ChoiceField
            label="Loss by month"
            value={reading}
            choices={bookReadings.map((id) => ({ id, name: id }))}
            onCommit={(id) => setReading(bookReadings.find((each) => each === id) ?? reading)}
          />
        </div>
        <StatementTable
          caption={`Loss statement, ${reading}: ${names}`}
          advice={bookReadingAdvice[reading]}
          statement={statement}
          labelOf={labelOf}
        />
      </ViewPart>
      <ViewPart>
        <ComparisonTable comparisons={comparisons} labelOf={labelOf} />
      </ViewPart>
      <ViewPart>
        <MonthPlot of={`${names}, ${reading}`} statement={statement} position={position} labelOf={labelOf} />
      </ViewPart>
    </>
  );
});
