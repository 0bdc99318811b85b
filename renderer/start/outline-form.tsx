/** The sheet that asks for a programme in outline: what there is once, above a table with a column for each propellant. */
import type { Outline, OutlineFaults, OutlinePropellant, OutlineTanker, Said } from "./outline.ts";
import { maximumFillKg } from "./outline.ts";
import { tabledPropellants } from "../names/tabled-propellants.ts";
import { formatMass } from "../format/mass.ts";
import { figure } from "../widgets/number-text.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { TextField } from "../widgets/text-field.tsx";
import "./outline-form.css";

interface OutlineFormProps {
  readonly outline: Outline;
  readonly faults: OutlineFaults;
  readonly onChange: (outline: Outline) => void;
}

const MAX_KG = 1e9;

export const OutlineForm = ({ outline, faults, onChange }: OutlineFormProps) => {
  const put = (patch: Partial<Outline>): void => onChange({ ...outline, ...patch });
  const putTanker = (index: number, patch: Partial<OutlineTanker>): void =>
    put({ tankers: outline.tankers.map((row, at) => (at === index ? { ...row, ...patch } : row)) });
  const putRow = (index: number, patch: Partial<OutlinePropellant>): void =>
    put({ propellants: outline.propellants.map((row, at) => (at === index ? { ...row, ...patch } : row)) });
  const faultOf = (field: string): string | null => faults[field] ?? null;
  const cells = outlineCells(outline);
  return (
    <>
      <div className="outline-once">
        <InstantField
          label="Plan begins"
          value={outline.beginsAt}
          fault={faultOf("beginsAt")}
          emptyWords="a date"
          onClear={() => put({ beginsAt: null })}
          onCommit={(beginsAt) => put({ beginsAt })}
        />
        <TextField
          label="Depot"
          value={outline.depot}
          most={60}
          isRequired
          fault={faultOf("depot")}
          onCommit={(depot) => put({ depot })}
        />
        <TextField
          label="Lander class"
          value={outline.lander}
          most={60}
          isRequired
          fault={faultOf("lander")}
          onCommit={(lander) => put({ lander })}
        />
        <Days
          label="A sortie is away"
          value={outline.daysAway}
          fault={faultOf("daysAway")}
          onSay={(daysAway) => put({ daysAway })}
        />
        {outline.tankers.map((tanker, index) => {
          const at = `tankers.${index}`;
          return (
            // A tanker of an outline has nothing but its place.
            // eslint-disable-next-line react/no-array-index-key -- as above
            <fieldset key={index} className="outline-tanker" aria-label={`Tanker class ${index + 1}`}>
              <TextField
                label={`Tanker class ${index + 1}`}
                value={tanker.name}
                most={60}
                isRequired
                fault={faultOf(`${at}.name`)}
                onCommit={(name) => putTanker(index, { name })}
              />
              <Days
                label="Transit"
                value={tanker.transitDays}
                fault={faultOf(`${at}.transitDays`)}
                onSay={(transitDays) => putTanker(index, { transitDays })}
              />
              <Days
                label="At the port"
                value={tanker.berthDays}
                fault={faultOf(`${at}.berthDays`)}
                onSay={(berthDays) => putTanker(index, { berthDays })}
              />
            </fieldset>
          );
        })}
      </div>
      <table className="outline-table">
        <caption className="unseen">What is stored, brought and needed, by propellant</caption>
        <thead>
          <tr>
            <th scope="col">Propellant</th>
            {outline.propellants.map((row, index) => (
              // eslint-disable-next-line react/no-array-index-key -- a column of an outline has nothing but its place
              <th key={index} scope="col">
                <ChoiceField
                  isBare
                  label={`Propellant ${index + 1}`}
                  value={row.what.name}
                  choices={propellantChoices}
                  fault={faultOf(`propellants.${index}.what`)}
                  onCommit={(name) => {
                    const what = tabledPropellants.find((tabled) => tabled.name === name);
                    if (what !== undefined) putRow(index, { what });
                  }}
                />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {cells.map((cell) => (
            <tr key={cell.key}>
              <th scope="row">
                {cell.label}
                {cell.isOptional && <span className="outline-optional"> (none if empty)</span>}
              </th>
              {outline.propellants.map((row, index) => (
                // eslint-disable-next-line react/no-array-index-key -- as above
                <td key={index}>
                  <NumberField
                    isBare
                    label={`${row.what.name}: ${cell.label}`}
                    unit={cell.unit}
                    min={0}
                    max={cell.most}
                    isMinOpen={cell.isAboveZero}
                    value={cell.of(row)}
                    origin={cell.origin?.(row) ?? null}
                    fault={faultOf(`propellants.${index}.${cell.key}`)}
                    onClear={() => putRow(index, cell.put(row, null))}
                    onCommit={(value) => putRow(index, cell.put(row, value))}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="form-advice">
        Not asked here and taken as none until you state it: losses on the way and at each transfer, line chilldown,
        residuals and heel; sorties can leave at any time, and the depot has one port for tankers. Craft and Depots hold
        all of it.
      </p>
    </>
  );
};

const propellantChoices = tabledPropellants.map(({ name, symbol, densityKgPerM3 }) => ({
  id: name,
  name: `${name} (${symbol})`,
  note: `${figure(densityKgPerM3, 2)}\u202fkg/m³`,
}));

interface DaysProps {
  readonly label: string;
  readonly value: Said;
  readonly fault: string | null;
  readonly onSay: (days: Said) => void;
}

const Days = ({ label, value, fault, onSay }: DaysProps) => (
  <NumberField
    label={label}
    unit="days"
    min={0}
    max={2000}
    value={value}
    fault={fault}
    onClear={() => onSay(null)}
    onCommit={onSay}
  />
);

interface Cell {
  /** The part of a propellant's fault path. */
  readonly key: string;
  readonly label: string;
  readonly unit: string;
  readonly most: number;
  readonly isAboveZero: boolean;
  readonly isOptional: boolean;
  readonly of: (row: OutlinePropellant) => Said;
  readonly put: (row: OutlinePropellant, value: Said) => Partial<OutlinePropellant>;
  readonly origin?: (row: OutlinePropellant) => string | null;
}

type Plain = Exclude<keyof OutlinePropellant, "what" | "broughtKg">;

const plain = (key: Plain, label: string, more: Partial<Cell> = {}): Cell => ({
  key,
  label,
  unit: "kg",
  most: MAX_KG,
  isAboveZero: false,
  isOptional: false,
  of: (row) => row[key],
  put: (_row, value) => ({ [key]: value }),
  ...more,
});

const fillOrigin = (row: OutlinePropellant): string | null => {
  const kg = maximumFillKg(row);
  return kg === null ? null : `maximum fill ${formatMass(kg)}`;
};

const outlineCells = ({ tankers, lander }: Outline): readonly Cell[] => [
  plain("volumeM3", "Depot tank, inner volume", { unit: "m³", most: 1e6, isAboveZero: true }),
  plain("ullagePercent", "Ullage kept", { unit: "%", most: 90, origin: fillOrigin }),
  plain("openingKg", "In the tank when the plan begins", { isOptional: true }),
  plain("reserveKg", "Reserve", { isOptional: true }),
  plain("lossPercentPerDay", "Boil-off", { unit: "%/day", most: 99 }),
  ...tankers.map(({ name }, index): Cell => ({
    ...plain("neededKg", `Loaded on ${name === "" ? `tanker class ${index + 1}` : name}`, { isOptional: true }),
    key: `broughtKg.${index}`,
    of: ({ broughtKg }) => broughtKg[index] ?? null,
    put: ({ broughtKg }, value) => ({ broughtKg: broughtKg.map((kg, at) => (at === index ? value : kg)) }),
  })),
  plain("neededKg", `Needed aboard ${lander === "" ? "the lander" : lander} for a sortie`, { isAboveZero: true }),
  plain("returnedKg", "Aboard at its return", { isOptional: true }),
];
