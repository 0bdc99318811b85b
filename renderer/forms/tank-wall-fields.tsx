/** The wall of a lander's tank that is warm before each top-up, and what it boils to be cooled. */
import type { CraftPropellant, TankWall } from "../../app/entity/craft.ts";
import type { Propellant } from "../../app/entity/propellant.ts";
import { wallChilldownKg } from "../../app/storage/top-up-chilldown.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";

interface TankWallFieldsProps {
  readonly line: CraftPropellant;
  readonly propellant: Propellant | undefined;
  readonly isReadOnly: boolean;
  readonly words: (what: string) => string;
  readonly onCommit: (patch: Partial<CraftPropellant>, words: string) => void;
}

const metals: readonly { readonly id: TankWall["metal"]; readonly name: string }[] = [
  { id: "aluminium", name: "Aluminium" },
  { id: "titanium", name: "Titanium" },
  { id: "steel", name: "Steel" },
];

const BEGUN: TankWall = { massKg: 0, metal: "aluminium", temperatureK: 150 };

export const TankWallFields = ({ line, propellant, isReadOnly, words, onCommit }: TankWallFieldsProps) => {
  const { wall } = line;
  // Without a property table what it boils cannot be computed.
  if ((propellant?.fluid ?? null) === null && wall === undefined) return null;
  const put = (patch: Partial<TankWall>, what: string): void =>
    onCommit({ wall: { ...(wall ?? BEGUN), ...patch } }, words(what));
  return (
    <>
      <CheckField
        isOn={wall !== undefined}
        isReadOnly={isReadOnly}
        onCommit={(isOn) => onCommit({ wall: isOn ? BEGUN : undefined }, words("tank wall"))}
      >
        The tank is warm before each top-up
      </CheckField>
      {wall !== undefined && (
        <>
          <NumberField
            label="Mass of the wall"
            unit="kg"
            min={0}
            max={1e6}
            step={10}
            value={wall.massKg}
            isReadOnly={isReadOnly}
            onCommit={(massKg) => put({ massKg }, "mass of the tank wall")}
          />
          <ChoiceField
            label="Metal"
            value={wall.metal}
            choices={metals}
            isReadOnly={isReadOnly}
            onCommit={(metal) => put({ metal }, "metal of the tank wall")}
          />
          <NumberField
            label="Warm at"
            unit="K"
            min={1}
            max={500}
            step={5}
            value={wall.temperatureK}
            isReadOnly={isReadOnly}
            onCommit={(temperatureK) => put({ temperatureK }, "temperature of the tank wall")}
          />
          <p className="form-advice">
            Cooling it boils {withUnit(formatNumber(wallChilldownKg(line, propellant?.fluid ?? null), 1), "kg")} at each
            top-up, at the most: 3R a mole of metal (Dulong and Petit) over the heat of vaporisation, vapour leaving
            cold.
          </p>
        </>
      )}
    </>
  );
};
