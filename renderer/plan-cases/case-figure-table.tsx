/** All plan cases beside each other in figures; what differs from the case shown is set strong. Two can be drawn together. */
import { useMemo } from "react";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import type { PlanCase } from "../../app/entity/plan-case.ts";
import type { CaseFigures } from "../../app/supply/case-figures.ts";
import { formatInstant } from "../format/instant.ts";
import type { MassUnit } from "../format/mass.ts";
import { formatSigned, withUnit } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { type Column, cellText } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { massColumn } from "../widgets/mass-column.ts";
import { useCaseFigures } from "./use-case-figures.ts";

interface Row {
  readonly planCase: PlanCase;
  /** null: still being worked out. */
  readonly figures: CaseFigures | null;
}

const WAITING = "…";

type Counted = keyof CaseFigures["counts"];

const countColumn = (status: Counted, heading: string): Column<Row> => ({
  id: status,
  heading,
  isNumber: true,
  value: ({ figures }) => figures?.counts[status],
  text: ({ figures }) => (figures === null ? WAITING : String(figures.counts[status])),
});

const worstColumn = (propellantNames: ReadonlyMap<string, string>): Column<Row> => ({
  id: "worst",
  heading: "Least margin",
  value: ({ figures }) => figures?.worst?.marginPercent,
  text: ({ figures }) => {
    if (figures === null) return WAITING;
    const { worst } = figures;
    if (worst === null) return "";
    const propellant = propellantNames.get(worst.propellantId)?.toLowerCase() ?? worst.propellantId;
    return `${withUnit(formatSigned(worst.marginPercent, 1), "%")} ${propellant}, ${worst.sortieName}`;
  },
});

/** What differs from the case shown is strong, and says what that one has. */
const marked = (columns: readonly Column<Row>[], shown: Row | undefined): readonly Column<Row>[] =>
  columns.map((column) => ({
    ...column,
    show: (row) => {
      const text = cellText(column, row);
      if (shown?.figures == null || row.figures === null || row.planCase.id === shown.planCase.id) return text;
      const other = cellText(column, shown);
      return text === other ? (
        text
      ) : (
        <strong title={`${shown.planCase.name}: ${other || "none"}`}>{text || "none"}</strong>
      );
    },
  }));

const columnsFor = (
  rows: readonly Row[],
  shownId: string | null,
  unit: MassUnit,
  propellantNames: ReadonlyMap<string, string>,
): readonly Column<Row>[] => [
  { id: "name", heading: "Plan case", value: ({ planCase }) => planCase.name },
  ...marked(
    [
      { id: "verdict", heading: "Verdict", value: ({ figures }) => figures?.verdict ?? WAITING },
      countColumn("supplied", "Supplied"),
      countColumn("thin", "Thin"),
      countColumn("short", "Short"),
      worstColumn(propellantNames),
      {
        id: "first",
        heading: "First short",
        value: ({ figures }) => figures?.firstShortAt,
        text: ({ figures }) => {
          if (figures === null) return WAITING;
          return figures.firstShortAt === null ? "" : formatInstant(figures.firstShortAt);
        },
      },
      {
        id: "flights",
        heading: "Flights ahead",
        isNumber: true,
        value: ({ figures }) => figures?.flights,
        text: ({ figures }) => (figures === null ? WAITING : String(figures.flights)),
      },
      massColumn(rows, unit, {
        id: "delivered",
        heading: "Delivered",
        massKg: ({ figures }) => figures?.deliveredKg ?? null,
      }),
      massColumn(rows, unit, {
        id: "lost",
        heading: "Boil-off",
        massKg: ({ figures }) => figures?.boiledOffKg ?? null,
      }),
    ],
    rows.find(({ planCase }) => planCase.id === shownId),
  ),
];

export const CaseFigureTable = ({ ledger }: { ledger: LedgerInfo }) => {
  const session = useSession();
  const shownId = useApp((state) => state.planCaseId);
  const compareId = useApp((state) => state.compareCaseId);
  const selection = useApp((state) => state.selection);
  const unit = useApp((state) => state.massUnit);
  const propellants = useApp((state) => state.current?.plan.propellants);
  const figures = useCaseFigures();
  const rows = useMemo(
    () => ledger.planCases.map((planCase): Row => ({ planCase, figures: figures.get(planCase.id) ?? null })),
    [ledger, figures],
  );
  const columns = useMemo(
    () => columnsFor(rows, shownId, unit, new Map(propellants?.map(({ id, name }) => [id, name]))),
    [rows, shownId, unit, propellants],
  );
  if (ledger.planCases.length < 2) return null;
  const otherId = selection?.kind === "planCase" && selection.id !== shownId ? selection.id : compareId;
  const draw = (): void => {
    if (otherId === null) return;
    session.compareWith(otherId);
    session.show("timeline");
  };
  const otherName = ledger.planCases.find(({ id }) => id === otherId)?.name;
  return (
    <DataTable
      caption="Cases compared"
      columns={columns}
      rows={rows}
      rowId={({ planCase }) => planCase.id}
      selectedId={selection?.kind === "planCase" ? selection.id : shownId}
      onSelect={({ planCase }) => session.select({ kind: "planCase", id: planCase.id })}
      tools={otherName === undefined ? undefined : <Button onPress={draw}>{`Draw with ${otherName}`}</Button>}
      empty="No plan case."
    />
  );
};
