/** The tanker classes: whether each may fly, what it brings, and with how many hulls, what turnaround and what cost. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity } from "../../app/entity/entities.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { formatMass, type MassUnit } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import { useApp } from "../state/use-session.ts";
import { CheckField } from "../widgets/check-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { nameIn } from "../../app/words/named.ts";

type ClassAsked = ResupplyAsked["classes"][number];

interface ClassRow {
  readonly craftClass: Entity<"craftClass">;
  /** Hulls of it in the ledger. */
  readonly own: number;
  /** null: it may not fly. */
  readonly asked: ClassAsked | null;
  /** One class at least must be able to fly. */
  readonly isLast: boolean;
}

interface ClassTableProps {
  readonly plan: PlanSnapshot;
  readonly asked: ResupplyAsked;
  readonly onChange: (change: Partial<ResupplyAsked>) => void;
}

const MAX_HULLS = 99;
const MAX_DAYS = 36_525;
const MAX_COST = 1e12;
const LEAST_EVERY = 0.25;
const MAX_EVERY = 1000;

const usualOf = ({ id, turnaroundDays }: Entity<"craftClass">): ClassAsked => ({
  classId: id,
  hulls: null,
  turnaroundDays,
  costPerFlight: null,
  everyDays: null,
});

const rowsOf = (plan: PlanSnapshot, { classes }: ResupplyAsked): readonly ClassRow[] => {
  const tankers = plan.craftClasses.filter(({ role }) => role === "tanker");
  const rows = tankers.map((craftClass) => ({
    craftClass,
    own: plan.craft.filter(({ classId }) => classId === craftClass.id).length,
    asked:
      classes.length === 0 ? usualOf(craftClass) : (classes.find(({ classId }) => classId === craftClass.id) ?? null),
  }));
  const flying = rows.filter(({ asked }) => asked !== null).length;
  return rows.map((row) => ({ ...row, isLast: row.asked !== null && flying === 1 }));
};

/** "hydrogen 12.0 t, oxygen 70.0 t" */
const payload = (plan: PlanSnapshot, { propellants }: Entity<"craftClass">, unit: MassUnit) =>
  propellants
    .filter(({ loadKg }) => loadKg > 0)
    .map(
      ({ propellantId, loadKg }) =>
        `${nameIn(plan.propellants, propellantId).toLowerCase()} ${formatMass(loadKg, unit)}`,
    )
    .join(", ");

const columnsFor = (
  plan: PlanSnapshot,
  rows: readonly ClassRow[],
  unit: MassUnit,
  onChange: ClassTableProps["onChange"],
): readonly Column<ClassRow>[] => {
  const set = (classes: readonly ClassAsked[]): void => onChange({ classes: [...classes] });
  const flying = rows.flatMap((row) => row.asked ?? []);
  const put = (changed: ClassAsked): void =>
    set(flying.map((row) => (row.classId === changed.classId ? changed : row)));
  return [
    {
      id: "class",
      heading: "May fly",
      value: ({ craftClass }) => craftClass.name,
      show: ({ craftClass, asked: own, isLast }) => (
        <CheckField
          isOn={own !== null}
          isReadOnly={isLast}
          onCommit={(isOn) =>
            set(isOn ? [...flying, usualOf(craftClass)] : flying.filter(({ classId }) => classId !== craftClass.id))
          }
        >
          {craftClass.name}
        </CheckField>
      ),
      title: ({ isLast }) => (isLast ? "One class at least must be able to fly." : undefined),
    },
    { id: "payload", heading: "Loaded", value: ({ craftClass }) => payload(plan, craftClass, unit), isWide: true },
    {
      id: "trip",
      heading: "Transit",
      unit: "days",
      isNumber: true,
      value: ({ craftClass }) => craftClass.tripDays,
      text: ({ craftClass }) => formatNumber(craftClass.tripDays, 1),
    },
    {
      id: "berth",
      heading: "At the port",
      unit: "days",
      isNumber: true,
      value: ({ craftClass }) => craftClass.berthDays,
      text: ({ craftClass }) => formatNumber(craftClass.berthDays, 1),
    },
    {
      id: "every",
      heading: "Arrives every",
      unit: "days",
      isNumber: true,
      value: ({ asked: own }) => own?.everyDays,
      title: () => "empty: when flights arrive is said above; else from the first that can be there on",
      show: ({ craftClass, asked: own }) =>
        own !== null && (
          <NumberField
            isBare
            label={`${craftClass.name} arrives every`}
            unit={own.everyDays === null ? "" : "days"}
            min={LEAST_EVERY}
            max={MAX_EVERY}
            value={own.everyDays}
            placeholder="as above"
            onCommit={(everyDays) => put({ ...own, everyDays })}
            onClear={() => put({ ...own, everyDays: null })}
          />
        ),
    },
    {
      id: "hulls",
      heading: "Hulls",
      isNumber: true,
      value: ({ asked: own }) => own?.hulls,
      title: ({ own }) => `${formatNumber(own)} in the ledger; empty: as many as wanted`,
      show: ({ craftClass, asked: own }) =>
        own !== null && (
          <NumberField
            isBare
            label={`Hulls of ${craftClass.name}`}
            unit=""
            isWhole
            min={0}
            max={MAX_HULLS}
            value={own.hulls}
            placeholder="no limit"
            onCommit={(hulls) => put({ ...own, hulls })}
            onClear={() => put({ ...own, hulls: null })}
          />
        ),
    },
    {
      id: "turnaround",
      heading: "Turnaround",
      unit: "days",
      isNumber: true,
      value: ({ asked: own }) => own?.turnaroundDays,
      title: () => "counts where the number of hulls is limited",
      show: ({ craftClass, asked: own }) =>
        own !== null && (
          <NumberField
            isBare
            label={`Turnaround of ${craftClass.name}`}
            unit="days"
            min={0}
            max={MAX_DAYS}
            value={own.turnaroundDays}
            onCommit={(turnaroundDays) => put({ ...own, turnaroundDays })}
          />
        ),
    },
    {
      id: "cost",
      heading: "Cost of a flight",
      isNumber: true,
      value: ({ craftClass, asked: own }) => own?.costPerFlight ?? craftClass.costPerFlight,
      show: ({ craftClass, asked: own }) =>
        own !== null && (
          <NumberField
            isBare
            label={`Cost of a flight of ${craftClass.name}`}
            unit={craftClass.costUnit}
            min={0}
            max={MAX_COST}
            value={own.costPerFlight}
            placeholder={craftClass.costPerFlight === null ? "not stated" : formatNumber(craftClass.costPerFlight)}
            onCommit={(costPerFlight) => put({ ...own, costPerFlight })}
            onClear={() => put({ ...own, costPerFlight: null })}
          />
        ),
    },
  ];
};

export const ClassTable = ({ plan, asked, onChange }: ClassTableProps) => {
  const unit = useApp((state) => state.massUnit);
  const rows = useMemo(() => rowsOf(plan, asked), [plan, asked]);
  const columns = useMemo(() => columnsFor(plan, rows, unit, onChange), [plan, rows, unit, onChange]);
  return (
    <div className="resupply-classes">
      <DataTable
        caption="What may fly"
        columns={columns}
        rows={rows}
        rowId={({ craftClass }) => craftClass.id}
        empty="There is no tanker class. Add one under Craft."
        tone={(row) => (row.asked === null ? "faint" : undefined)}
      />
    </div>
  );
};
