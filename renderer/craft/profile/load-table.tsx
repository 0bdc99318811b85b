/** What a sortie takes of each propellant, where it goes, and what its top-up takes beyond it. */
import type { CraftPropellant } from "../../../app/entity/craft.ts";
import type { Propellant } from "../../../app/entity/propellant.ts";
import { TOP_UP_HEADING, topUpWords } from "../../../app/storage/top-up-words.ts";
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

interface LoadTableProps {
  readonly sheet: SortieSheet;
  readonly propellants: readonly Propellant[];
  /** What the lander's class does with each propellant. */
  readonly lines: readonly CraftPropellant[];
}

export const LoadTable = ({ sheet, propellants, lines }: LoadTableProps) => {
  const beyond = topUpWords(lines, propellants);
  return (
    <>
      <DataTable
        caption="Propellant"
        columns={columnsOf(sheet, propellants)}
        rows={sheet.lines}
        rowId={(line) => line.propellantId}
        empty="The lander has no tanks."
      />
      {beyond.length > 0 && (
        <div className="sheet-beyond">
          <p>{TOP_UP_HEADING}</p>
          <ul>
            {beyond.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
};
