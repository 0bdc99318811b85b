/** Every input that the risk rests on: its distribution in words and as a shape, its source, and whether it is only assumed. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Reading } from "../../app/ledger/journal.ts";
import { lawWords, quantityWords, subjectWords } from "../../app/risk/input-words.ts";
import { type InputInForce, inputsInForce } from "../../app/risk/inputs-in-force.ts";
import { formatNumber } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { AddButton } from "../forms/add-button.tsx";
import { ObservedOffers } from "./observed-offers.tsx";
import { LawFigure } from "../uncertainty/law-figure.tsx";
import { namesOf } from "./names.ts";

const columnsFor = (nameOf: (id: string) => string): readonly Column<InputInForce>[] => [
  {
    id: "quantity",
    heading: "Input",
    value: ({ uncertainty }) => quantityWords[uncertainty.quantity].name,
    title: ({ uncertainty }) => quantityWords[uncertainty.quantity].means,
  },
  { id: "of", heading: "Of", value: ({ uncertainty }) => subjectWords(uncertainty, nameOf) },
  {
    id: "shape",
    heading: "Shape",
    value: () => null,
    show: ({ uncertainty }) => <LawFigure uncertainty={uncertainty} />,
  },
  {
    id: "source",
    heading: "Source",
    value: ({ source }) => source ?? "assumed",
    show: ({ source }) => source ?? <strong className="risk-assumed">assumed</strong>,
  },
  { id: "law", heading: "Distribution", value: ({ uncertainty }) => lawWords(uncertainty) },
  {
    id: "holds",
    heading: "Applies to",
    isNumber: true,
    value: ({ subjectIds }) => subjectIds.length,
    text: ({ subjectIds }) => formatNumber(subjectIds.length),
    title: ({ subjectIds }) => subjectIds.map(nameOf).join(", "),
  },
  { id: "why", heading: "Why", isWide: true, value: ({ why }) => why },
];

export const AssumptionTable = ({ plan, readings }: { plan: PlanSnapshot; readings: readonly Reading[] }) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const rows = useMemo(() => inputsInForce(plan, readings).list, [plan, readings]);
  const columns = useMemo(() => columnsFor(namesOf(plan)), [plan]);
  return (
    <div className="risk-sheet">
      <p className="form-advice">
        For each flight, sortie and tank the narrowest input that is stated counts; where none is, the default, which is
        assumed. Shapes end at 98 % of the cases; an upright at the left is the share without any slip.
      </p>
      <ObservedOffers plan={plan} />
      <DataTable
        caption="What the risk rests on"
        columns={columns}
        rows={rows}
        rowId={({ inputId }) => inputId}
        selectedId={selection?.kind === "riskInput" ? selection.id : null}
        onSelect={({ inputId, isDefault }) => {
          if (!isDefault) session.select({ kind: "riskInput", id: inputId });
        }}
        empty="Nothing is ahead that could be uncertain."
        tools={<AddButton kind="riskInput" />}
      />
    </div>
  );
};
