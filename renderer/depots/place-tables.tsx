/** Depots, sources and propellants. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { nextWindow, windowsOf } from "../../app/entity/windows.ts";
import { formatNumber } from "../format/number.ts";
import { EntityTable } from "../forms/entity-table.tsx";
import type { Depot } from "../../app/entity/depot.ts";
import type { Propellant } from "../../app/entity/propellant.ts";
import type { Source } from "../../app/entity/source.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { instantColumn } from "../widgets/instant-column.ts";
import { PropellantMark } from "../widgets/propellant-mark.tsx";

const depotColumns = (plan: PlanSnapshot): readonly Column<Depot>[] => [
  { id: "name", heading: "Depot", value: ({ name }) => name },
  { id: "orbit", heading: "Orbit", value: ({ orbit }) => orbit },
  { id: "ports", heading: "Ports", isNumber: true, value: ({ ports }) => ports },
  {
    id: "period",
    heading: "Window every",
    unit: "days",
    isNumber: true,
    value: ({ windowPeriodDays }) => windowPeriodDays,
    text: ({ windowPeriodDays, windowList }) => {
      if (windowList !== null) return `list of ${String(windowList.at.length)}`;
      return windowPeriodDays === null ? "any time" : formatNumber(windowPeriodDays, 4);
    },
  },
  instantColumn("next", "Next window", (depot) => {
    const at = windowsOf(depot) === null ? null : nextWindow(depot, plan.asOfAt);
    // The last of a list may be over.
    return at === Infinity ? null : at;
  }),
  { id: "note", heading: "Note", isSentence: true, value: ({ note }) => note },
];

const sourceColumns: readonly Column<Source>[] = [
  { id: "name", heading: "Source", value: ({ name }) => name },
  { id: "kind", heading: "Kind", value: ({ kind }) => (kind === "ground" ? "ground" : "production plant") },
  { id: "note", heading: "Note", isSentence: true, value: ({ note }) => note },
];

const propellantColumns: readonly Column<Propellant>[] = [
  {
    id: "name",
    heading: "Propellant",
    value: ({ name }) => name,
    show: (propellant) => <PropellantMark propellant={propellant} />,
  },
  { id: "symbol", heading: "Symbol", value: ({ symbol }) => symbol },
  {
    id: "density",
    heading: "Density",
    unit: "kg/m³",
    isNumber: true,
    value: ({ densityKgPerM3 }) => densityKgPerM3,
    text: ({ densityKgPerM3 }) => formatNumber(densityKgPerM3, 1),
  },
  { id: "fluid", heading: "Property table", isWide: true, value: ({ fluid }) => fluid ?? "none" },
];

export const DepotTable = ({ plan }: { plan: PlanSnapshot }) => {
  const columns = useMemo(() => depotColumns(plan), [plan]);
  return <EntityTable kind="depot" caption="Depots" columns={columns} rows={plan.depots} empty="No depot yet." />;
};

export const SourceTable = ({ plan }: { plan: PlanSnapshot }) => (
  <EntityTable kind="source" caption="Sources" columns={sourceColumns} rows={plan.sources} empty="No source yet." />
);

export const PropellantTable = ({ plan }: { plan: PlanSnapshot }) => (
  <EntityTable
    kind="propellant"
    caption="Propellants"
    columns={propellantColumns}
    rows={plan.propellants}
    empty="No propellant yet. Begin here."
  />
);
