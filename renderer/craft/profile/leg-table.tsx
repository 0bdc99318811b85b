/** The sortie leg by leg: masses, Δv, propellant by kind, thrust to weight. */
import type { Propellant } from "../../../app/entity/propellant.ts";
import type { Leg } from "../../../app/sortie/leg.ts";
import type { SortieSheet } from "../../../app/sortie/sheet.ts";
import { massFigure } from "../../format/mass.ts";
import { formatNumber } from "../../format/number.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";

interface LegTableProps {
  readonly sheet: SortieSheet;
  readonly propellants: readonly Propellant[];
  readonly at: number;
  readonly onShow: (at: number) => void;
}

const number = (
  id: string,
  heading: string,
  unit: string,
  decimals: number,
  value: (leg: Leg) => number | null,
): Column<Leg> => ({
  id,
  heading,
  ...(unit === "" ? {} : { unit }),
  isNumber: true,
  value,
  text: (leg) => {
    const figure = value(leg);
    return figure === null ? "" : formatNumber(figure, decimals);
  },
});

/** What leaves the tanks in a leg, of one propellant: burned, lost, consumed, left behind (caches apart). */
const gone = (leg: Leg, p: number): number =>
  (leg.burnedKg[p] ?? 0) + (leg.lostKg[p] ?? 0) + (leg.consumedKg[p] ?? 0) + (leg.leftBehindKg[p] ?? 0);

const columnsOf = (sheet: SortieSheet, propellants: readonly Propellant[]): Column<Leg>[] => [
  number("step", "No.", "", 0, (leg) => leg.stepIndex + 1),
  {
    id: "name",
    heading: "Leg",
    value: (leg) => (leg.stage === null ? leg.name : `${leg.name} (${leg.stage})`),
    isWide: true,
  },
  {
    id: "before",
    heading: "Before",
    unit: "t",
    isNumber: true,
    value: (leg) => leg.massBeforeKg / 1000,
    text: (leg) => massFigure(leg.massBeforeKg, "t"),
  },
  {
    id: "after",
    heading: "After",
    unit: "t",
    isNumber: true,
    value: (leg) => leg.massAfterKg / 1000,
    text: (leg) => massFigure(leg.massAfterKg, "t"),
  },
  number("deltaV", "Δv", "m/s", 0, (leg) => (leg.ispS === null ? null : leg.deltaVMPerS)),
  ...sheet.lines.map((line, p) => {
    const propellant = propellants.find(({ id }) => id === line.propellantId);
    return number(line.propellantId, propellant?.symbol ?? line.propellantId, "kg", 0, (leg) => gone(leg, p));
  }),
  number("burn", "Burn", "s", 0, (leg) => (leg.burnSeconds > 0 ? leg.burnSeconds : null)),
  number("weight", "Thrust/weight", "", 2, (leg) => leg.thrustToWeight?.[0] ?? null),
];

export const LegTable = ({ sheet, propellants, at, onShow }: LegTableProps) => (
  <DataTable
    caption="Leg by leg"
    columns={columnsOf(sheet, propellants)}
    rows={sheet.legs}
    rowId={(leg) => String(leg.stepIndex)}
    selectedId={String(at)}
    onSelect={(leg) => onShow(leg.stepIndex)}
    empty="The profile has no steps."
  />
);
