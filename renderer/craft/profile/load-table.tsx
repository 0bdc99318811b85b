/** What a sortie takes of each propellant, and where it goes. */
import type { Propellant } from "../../../app/entity/propellant.ts";
import type { SheetLine, SortieSheet } from "../../../app/sortie/sheet.ts";
import { formatNumber } from "../../format/number.ts";
import type { Column } from "../../widgets/data-table/column.ts";
import { DataTable } from "../../widgets/data-table/data-table.tsx";
import { PropellantMark } from "../../widgets/propellant-mark.tsx";

type MassName = Exclude<keyof SheetLine, "propellantId">;

const masses: readonly (readonly [MassName, string])[] = [
  ["loadKg", "Load"],
  ["burnedKg", "Burned"],
  ["lostKg", "Boil-off"],
  ["consumedKg", "Crew, power"],
  ["leftBehindKg", "Left behind"],
  ["residualKg", "Residual"],
  ["allowanceKg", "Mixture"],
  ["reserveKg", "Reserve"],
  ["returnKg", "Comes home"],
];

/** Columns that say nothing in this sheet are left out. */
const columnsOf = (sheet: SortieSheet, propellants: readonly Propellant[]): Column<SheetLine>[] => {
  const propellantOf = (line: SheetLine) => propellants.find(({ id }) => id === line.propellantId);
  return [
    {
      id: "propellant",
      heading: "Propellant",
      value: (line) => propellantOf(line)?.name ?? line.propellantId,
      show: (line) => <PropellantMark propellant={propellantOf(line)} />,
      isWide: true,
    },
    ...masses
      .filter(([field]) => sheet.lines.some((line) => line[field] > 0))
      .map(([field, heading]): Column<SheetLine> => ({
        id: field,
        heading,
        unit: "kg",
        isNumber: true,
        value: (line) => line[field],
        text: (line) => formatNumber(line[field], 0),
      })),
  ];
};

export const LoadTable = ({ sheet, propellants }: { sheet: SortieSheet; propellants: readonly Propellant[] }) => (
  <DataTable
    caption="Propellant"
    columns={columnsOf(sheet, propellants)}
    rows={sheet.lines}
    rowId={(line) => line.propellantId}
    empty="The lander has no tanks."
  />
);
