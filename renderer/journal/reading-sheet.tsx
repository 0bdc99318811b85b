/** Every gauge reading. */
import { useMemo } from "react";
import type { PlanView } from "../../app/ledger/ledger-view.ts";
import type { Reading } from "../../app/ledger/journal.ts";
import type { MassUnit } from "../format/mass.ts";
import { tankName } from "../names/entity-words.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { massColumn } from "../widgets/mass-column.ts";
import { READ_ONLY } from "../widgets/unable.ts";

const standing = ({ isWithdrawn, entryId }: Reading): string => {
  if (isWithdrawn) return "withdrawn";
  return entryId === null ? "kept beside the books" : "in the books";
};

const columnsFor = ({ plan, readings }: PlanView, unit: MassUnit): readonly Column<Reading>[] => [
  instantColumn("at", "Read at", ({ at }) => at),
  { id: "tank", heading: "Tank", value: ({ tankId }) => tankName(plan, tankId) },
  massColumn(readings, unit, { id: "mass", heading: "Measured", massKg: ({ massKg }) => massKg }),
  massColumn(readings, "kg", { id: "sigma", heading: "1 σ", massKg: ({ sigmaKg }) => sigmaKg }),
  { id: "standing", heading: "Status", value: standing },
  { id: "note", heading: "Note", isSentence: true, value: ({ note }) => note },
];

export const ReadingSheet = ({ view }: { view: PlanView }) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const selection = useApp((state) => state.selection);
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const columns = useMemo(() => columnsFor(view, unit), [view, unit]);
  const rows = useMemo(() => view.readings.toSorted((a, b) => b.at - a.at), [view.readings]);
  return (
    <DataTable
      caption="Gauge readings"
      columns={columns}
      rows={rows}
      rowId={({ id }) => id}
      selectedId={selection?.kind === "reading" ? selection.id : null}
      onSelect={({ id }) => session.select({ kind: "reading", id })}
      tone={({ isWithdrawn }) => (isWithdrawn ? "faint" : undefined)}
      empty="No reading yet."
      tools={
        <Button
          look="quiet"
          unable={isReadOnly ? READ_ONLY : null}
          onPress={() => session.openDialog("record.reading")}
        >
          Record a reading…
        </Button>
      }
    />
  );
};
