/** The columns of a foreign table, each with its first values and what it is taken for, to be corrected by choice. */
import type { ColumnChoice, ColumnUnit } from "../../app/ledger/column-mapping.ts";
import type { ColumnPreview, ColumnTarget } from "../../app/exchange/rows/rows-preview.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";

interface ColumnTableProps {
  readonly columns: readonly ColumnPreview[];
  readonly targets: readonly ColumnTarget[];
  readonly onChoose: (choice: ColumnChoice) => void;
}

const LEFT_OUT = "left out";
const decisionWords = {
  guessed: "guessed",
  remembered: "remembered",
  chosen: "chosen",
  undecided: "to be decided",
} as const;

const unitWords: Readonly<Record<ColumnUnit, string>> = { kg: "kg", t: "t", lb: "lb", days: "days", hours: "hours" };

const ColumnRow = ({
  column,
  targets,
  onChoose,
}: { readonly column: ColumnPreview } & Omit<ColumnTableProps, "columns">) => {
  const { heading, to, unit, decision } = column;
  const target = targets.find(({ id }) => id === to);
  const units = target?.units ?? [];
  const isOpen = decision === "undecided";
  // A column left out is a choice as well. One that is still open shows none, so that what was guessed can be chosen, too.
  const value = isOpen && units.length === 0 ? null : (to ?? LEFT_OUT);
  const choose = (id: string): void => {
    if (id === LEFT_OUT) return onChoose({ heading, to: null, unit: null });
    const next = targets.find((each) => each.id === id);
    onChoose({ heading, to: id, unit: unit !== null && next?.units.includes(unit) === true ? unit : null });
  };
  return (
    <tr className={isOpen ? "column-open" : undefined}>
      <th scope="row" title={heading}>
        {heading}
      </th>
      <td className="column-samples figures" title={column.samples.join("\n")}>
        {column.samples.join(" · ")}
      </td>
      <td>
        <ChoiceField
          label={`What “${heading}” is`}
          isBare
          value={value}
          emptyWords="choose, or leave out"
          choices={[{ id: LEFT_OUT, name: LEFT_OUT }, ...targets.map(({ id, name }) => ({ id, name }))]}
          onCommit={choose}
        />
      </td>
      <td>
        {units.length > 0 && (
          <ChoiceField
            label={`Unit of “${heading}”`}
            isBare
            value={unit}
            emptyWords="unit?"
            choices={units.map((each) => ({ id: each, name: unitWords[each] }))}
            onCommit={(each) => onChoose({ heading, to, unit: each })}
          />
        )}
      </td>
      <td className={isOpen ? "column-decision column-asks" : "column-decision"}>{decisionWords[decision]}</td>
    </tr>
  );
};

export const ColumnTable = ({ columns, targets, onChoose }: ColumnTableProps) => (
  <table className="column-table" aria-label="Columns of the file, and what each is read as">
    <thead>
      <tr>
        <th scope="col">Column</th>
        <th scope="col">Examples</th>
        <th scope="col">Is</th>
        <th scope="col">Unit</th>
        <th scope="col">Decided</th>
      </tr>
    </thead>
    <tbody>
      {columns.map((column) => (
        <ColumnRow key={column.heading} column={column} targets={targets} onChoose={onChoose} />
      ))}
    </tbody>
  </table>
);
