/** What the proposal changes, flight by flight, and what each flight is for. */
import { type ReactNode, useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { FlightChange, ResupplyAnswer } from "../../app/resupply/answer.ts";
import { purposeWords } from "../../app/resupply/answer-words.ts";
import { type MassUnit, formatMass } from "../format/mass.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { CheckField } from "../widgets/check-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { nameIn } from "../../app/words/named.ts";

interface ChangeTableProps {
  readonly plan: PlanSnapshot;
  readonly answer: ResupplyAnswer;
  /** Ids of the flights, added or left out, that are chosen to be taken. */
  readonly chosen: ReadonlySet<string>;
  readonly onChoose: (flightId: string, isChosen: boolean) => void;
  readonly tools: ReactNode;
}

const order = { added: 0, "left out": 1, kept: 2 } as const;
const marks = { added: "+", "left out": "−", kept: "" } as const;

const loadWords = (plan: PlanSnapshot, { flight }: FlightChange, unit: MassUnit): string =>
  flight.loads
    .filter(({ loadedKg }) => loadedKg > 0)
    .map(({ propellantId, loadedKg }) => {
      const name = nameIn(plan.propellants, propellantId);
      return `${name.toLowerCase()} ${formatMass(loadedKg, unit)}`;
    })
    .join(", ");

const columnsFor = (
  plan: PlanSnapshot,
  unit: MassUnit,
  chosen: ReadonlySet<string>,
  onChoose: ChangeTableProps["onChoose"],
): readonly Column<FlightChange>[] => {
  const nameOf = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    nameIn(rows, id);
  return [
    {
      id: "name",
      heading: "Flight",
      value: ({ flight }) => flight.name,
      show: ({ kind, flight }) =>
        kind === "kept" ? (
          flight.name
        ) : (
          <CheckField isOn={chosen.has(flight.id)} onCommit={(isOn) => onChoose(flight.id, isOn)}>
            {flight.name}
          </CheckField>
        ),
    },
    {
      id: "change",
      heading: "Change",
      value: ({ kind }) => order[kind],
      text: ({ kind }) => kind,
      show: ({ kind }) => (
        <span className={`resupply-change resupply-${kind.replace(" ", "-")}`}>
          <span aria-hidden="true">{marks[kind]}</span> {kind}
        </span>
      ),
    },
    instantColumn("departs", "Departs", ({ flight }) => flight.departAt),
    instantColumn("arrives", "Arrives", ({ flight }) => flight.arriveAt),
    ...(plan.depots.length > 1
      ? [
          {
            id: "origin",
            heading: "From",
            value: ({ flight: { origin } }: FlightChange) =>
              origin.kind === "depot" ? nameOf(plan.depots, origin.depotId) : nameOf(plan.sources, origin.sourceId),
          },
          {
            id: "depot",
            heading: "To",
            value: ({ flight }: FlightChange) => nameOf(plan.depots, flight.depotId),
          },
        ]
      : []),
    { id: "loads", heading: "Loaded", value: (row) => loadWords(plan, row, unit) },
    { id: "why", heading: "Why", isSentence: true, value: (row) => purposeWords(plan, row) },
  ];
};

export const ChangeTable = ({ plan, answer, chosen, onChoose, tools }: ChangeTableProps) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const selection = useApp((state) => state.selection);
  const columns = useMemo(() => columnsFor(plan, unit, chosen, onChoose), [plan, unit, chosen, onChoose]);
  const rows = useMemo(
    () => answer.changes.toSorted((a, b) => order[a.kind] - order[b.kind] || a.flight.arriveAt - b.flight.arriveAt),
    [answer],
  );
  return (
    <DataTable
      caption="What changes, and why"
      tools={tools}
      columns={columns}
      rows={rows}
      rowId={({ kind, flight }) => `${kind}/${flight.id}`}
      selectedId={selection?.kind === "flight" ? `kept/${selection.id}` : null}
      onSelect={({ kind, flight }) => {
        // A flight that is only proposed is not in the ledger: there is nothing to inspect.
        if (kind !== "added") session.select({ kind: "flight", id: flight.id });
      }}
      empty="Nothing changes: what is planned is enough."
      tone={({ kind }) => (kind === "kept" ? "faint" : undefined)}
    />
  );
};
