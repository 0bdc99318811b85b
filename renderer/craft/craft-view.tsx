/** Craft: the classes of tankers and landers, and their serials. */
import { useMemo, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Craft, CraftClass } from "../../app/entity/craft.ts";
import { EntityTable } from "../forms/entity-table.tsx";
import { formatNumber } from "../format/number.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import "./craft-view.css";
import { CarriageTable } from "./carriage-table.tsx";
import { LanderSheets } from "./profile/lander-sheets.tsx";

const classColumns = (plan: PlanSnapshot): readonly Column<CraftClass>[] => [
  { id: "name", heading: "Class", value: ({ name }) => name },
  { id: "role", heading: "Role", value: ({ role }) => role },
  {
    id: "trip",
    heading: "Usual transit or time away",
    unit: "days",
    isNumber: true,
    value: ({ tripDays }) => tripDays,
  },
  { id: "berth", heading: "At the port", unit: "days", isNumber: true, value: ({ berthDays }) => berthDays },
  {
    id: "turnaround",
    heading: "Turnaround",
    unit: "days",
    isNumber: true,
    value: ({ role, turnaroundDays }) => (role === "tanker" ? turnaroundDays : null),
  },
  {
    id: "cost",
    heading: "Cost per flight",
    isNumber: true,
    value: ({ costPerFlight }) => costPerFlight,
    text: ({ costPerFlight, costUnit }) =>
      costPerFlight === null ? "" : `${formatNumber(costPerFlight)} ${costUnit}`.trim(),
  },
  {
    id: "serials",
    heading: "Vehicles",
    isNumber: true,
    value: ({ id }) => plan.craft.filter(({ classId }) => classId === id).length,
  },
  { id: "note", heading: "Note", isSentence: true, value: ({ note }) => note },
];

const serialColumns = (plan: PlanSnapshot): readonly Column<Craft>[] => {
  const classOf = (craft: Craft) => plan.craftClasses.find(({ id }) => id === craft.classId);
  return [
    { id: "name", heading: "Craft", value: ({ name }) => name },
    { id: "class", heading: "Class", value: (craft) => classOf(craft)?.name },
    { id: "role", heading: "Role", value: (craft) => classOf(craft)?.role },
    {
      id: "flights",
      heading: "Flights in this case",
      isNumber: true,
      value: ({ id }) => plan.flights.filter(({ craftId }) => craftId === id).length || null,
    },
    {
      id: "sorties",
      heading: "Sorties in this case",
      isNumber: true,
      value: ({ id }) => plan.sorties.filter(({ landerId }) => landerId === id).length || null,
    },
    { id: "note", heading: "Note", isSentence: true, value: ({ note }) => note },
  ];
};

export const CraftView = () => {
  const current = useApp((state) => state.current);
  return current === null ? null : <CraftTables current={current} />;
};

/** The sheets of one class of lander: the one that is chosen, else the first of which there is a vehicle. */
const LanderClass = ({ current }: { current: CaseForecast }) => {
  const { plan } = current;
  const selection = useApp((state) => state.selection);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const landers = plan.craftClasses.filter(({ role }) => role === "lander");
  // A profile that was selected elsewhere brings its class with it.
  const selectedId =
    selection?.kind === "profile" ? plan.profiles.find(({ id }) => id === selection.id)?.classId : undefined;
  const craftClass =
    landers.find(({ id }) => id === (selectedId ?? chosenId)) ??
    landers.find(({ id }) => plan.craft.some(({ classId }) => classId === id)) ??
    landers[0];
  const session = useSession();
  if (craftClass === undefined) return null;
  const choose = (id: string): void => {
    setChosenId(id);
    if (selection?.kind === "profile") session.select(null);
  };
  return (
    <ViewPart>
      {landers.length > 1 && (
        <div className="class-of-lander">
          <ChoiceField
            label="Class of lander"
            value={craftClass.id}
            choices={landers.map(({ id, name, note }) => ({ id, name, note }))}
            onCommit={choose}
          />
        </div>
      )}
      <LanderSheets key={craftClass.id} current={current} craftClass={craftClass} />
    </ViewPart>
  );
};

const CraftTables = ({ current }: { current: CaseForecast }) => {
  const { plan } = current;
  const classes = useMemo(() => classColumns(plan), [plan]);
  const serials = useMemo(() => serialColumns(plan), [plan]);
  return (
    <ViewSheet>
      <LanderClass current={current} />
      <ViewPart>
        <EntityTable
          kind="craftClass"
          caption="Classes"
          columns={classes}
          rows={plan.craftClasses}
          empty="No class yet. A class says what a tanker brings, or what a lander needs."
        />
      </ViewPart>
      <ViewPart>
        <CarriageTable plan={plan} />
      </ViewPart>
      <ViewPart>
        <EntityTable
          kind="craft"
          caption="Vehicles"
          columns={serials}
          rows={plan.craft}
          empty="No craft yet. A craft is one serial of a class."
        />
      </ViewPart>
    </ViewSheet>
  );
};
