/** The coolers of a tank: lift by temperature, power, mass, and whether each runs in this period. */
import type { Cooler, HeatBalance } from "../../../app/entity/heat-balance.ts";
import { Button } from "../../widgets/button.tsx";
import { CheckField } from "../../widgets/check-field.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { TextField } from "../../widgets/text-field.tsx";
import { freshCooler } from "../../heat/fresh-balance.ts";
import { numberOf, type Part, partOf, placeOf } from "../part.ts";

type LiftPoint = Cooler["lift"][number];

const LiftFields = ({ part }: { part: Part<LiftPoint[]> }) => (
  <>
    {part.value.map((_, place) => {
      const point = placeOf(part, place);
      return (
        // eslint-disable-next-line react/no-array-index-key -- a point has no name of its own but its place
        <div className="lift-point" key={place}>
          <NumberField
            {...numberOf(point, "temperatureK", "lift temperature")}
            label="Lift at"
            unit="K"
            min={1}
            max={1500}
          />
          <NumberField {...numberOf(point, "liftW", "lift")} label="Lift" unit="W" min={0} max={1e7} />
          {!part.isReadOnly && part.value.length > 1 && (
            <Button
              look="quiet"
              onPress={() => part.commit(part.value.toSpliced(place, 1), "lift of a cooler")}
              aria-label={`Remove the lift at ${point.value.temperatureK} K`}
            >
              Remove
            </Button>
          )}
        </div>
      );
    })}
    {!part.isReadOnly && (
      <Button
        look="quiet"
        onPress={() => {
          const last = part.value.at(-1) ?? { temperatureK: 20, liftW: 0 };
          part.commit([...part.value, { temperatureK: last.temperatureK + 10, liftW: last.liftW }], "lift of a cooler");
        }}
      >
        Add a temperature
      </Button>
    )}
  </>
);

const OneCooler = ({ part, onRemove }: { part: Part<Cooler>; onRemove: () => void }) => {
  const { value, isReadOnly, commit } = part;
  return (
    <div className="heat-part">
      <TextField
        label="Cooler"
        value={value.name}
        most={80}
        isRequired
        isReadOnly={isReadOnly}
        onCommit={(name) => commit({ ...value, name }, "name of a cooler")}
      />
      <CheckField
        isOn={value.isRunning}
        isReadOnly={isReadOnly}
        onCommit={(isRunning) => commit({ ...value, isRunning }, isRunning ? "cooler, started" : "cooler, stopped")}
      >
        runs in this period
      </CheckField>
      <LiftFields part={partOf(part, "lift")} />
      <NumberField
        {...numberOf(part, "powerW", "power of a cooler")}
        label="Electric power"
        unit="W"
        min={0}
        max={1e7}
        step={10}
      />
      <NumberField {...numberOf(part, "massKg", "mass of a cooler")} label="Mass" unit="kg" min={0} max={1e9} />
      <TextField
        label="Note"
        value={value.note}
        most={2000}
        isReadOnly={isReadOnly}
        placeholder="source of these figures"
        onCommit={(note) => commit({ ...value, note }, "note of a cooler")}
      />
      {!isReadOnly && (
        <Button look="quiet" onPress={onRemove} aria-label={`Remove ${value.name}`}>
          Remove
        </Button>
      )}
    </div>
  );
};

export const CoolerFields = ({ part, balance }: { part: Part<Cooler[]>; balance: HeatBalance }) => (
  <FormSection
    title="Coolers"
    aside={
      !part.isReadOnly &&
      part.value.length < 8 && (
        <Button look="quiet" onPress={() => part.commit([...part.value, freshCooler(balance)], "coolers")}>
          Add a cooler
        </Button>
      )
    }
  >
    {part.value.length === 0 && <p className="form-advice">None: all heat that comes in boils propellant.</p>}
    {part.value.map((_, place) => (
      <OneCooler
        // eslint-disable-next-line react/no-array-index-key -- two coolers may bear one name
        key={place}
        part={placeOf(part, place)}
        onRemove={() => part.commit(part.value.toSpliced(place, 1), "coolers")}
      />
    ))}
    <p className="form-advice">
      Lift is straight between the lines; colder than the table it is nothing, warmer as at its end. For an outage, lay
      a second period over this one in which the cooler does not run.
    </p>
  </FormSection>
);
