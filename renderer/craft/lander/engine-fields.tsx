/** The main engines and the thrusters of a lander. */
import type { EngineSet, LanderTank, ThrusterSet } from "../../../app/entity/lander.ts";
import { Button } from "../../widgets/button.tsx";
import { ChoiceField } from "../../widgets/choice-field.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { TextField } from "../../widgets/text-field.tsx";
import { type PartFieldsProps, partTitle } from "./lander-fields.ts";
import { nameIn } from "../../../app/words/named.ts";

/** Which engines burn where a step lights only some. */
const choiceWords = [
  { id: "the same", name: "the same ones", note: "from engine 1 on, every time" },
  { id: "least worn", name: "the least worn", note: "of ignitions or burn time" },
] as const;

interface FigureProps {
  readonly label: string;
  readonly unit: string;
  readonly max: number;
  readonly value: number | null;
  readonly min?: number;
  readonly isWhole?: boolean;
  readonly step?: number;
  readonly origin?: string;
}

const percent = (share: number): number => Number((share * 100).toPrecision(9));

interface EngineFieldsProps extends PartFieldsProps {
  readonly part: {
    /** null: none, and its thrusters alone are shown. */
    readonly engines: EngineSet | null;
    readonly thrusters: readonly ThrusterSet[];
    readonly tanks: readonly LanderTank[];
  };
}

export const EngineFields = ({ part, ...props }: EngineFieldsProps) => (
  <>
    {part.engines !== null && <MainEngines {...props} engines={part.engines} tanks={part.tanks} />}
    <Thrusters {...props} thrusters={part.thrusters} tanks={part.tanks} />
  </>
);

type Tanks = EngineFieldsProps["part"]["tanks"];

const MainEngines = ({
  titled,
  engines,
  tanks,
  propellants,
  isReadOnly,
  put,
}: PartFieldsProps & { readonly engines: EngineSet; readonly tanks: Tanks }) => {
  const choices = tanks.map(({ propellantId }) => ({
    id: propellantId,
    name: nameIn(propellants, propellantId),
  }));
  const engine = (patch: Partial<EngineSet>, words: string): void => put({ engines: { ...engines, ...patch } }, words);
  const figure = (props: FigureProps, write: (value: number) => Partial<EngineSet>) => (
    <NumberField
      {...props}
      min={props.min ?? 0}
      isMinOpen={props.min === undefined}
      isReadOnly={isReadOnly}
      onCommit={(value) => engine(write(value), props.label.toLowerCase())}
    />
  );
  const rating = (label: string, unit: string, field: "ratedIgnitions" | "ratedBurnSeconds") => (
    <NumberField
      label={label}
      unit={unit}
      min={1}
      max={1e5}
      isWhole={field === "ratedIgnitions"}
      value={engines[field]}
      placeholder="not rated"
      isReadOnly={isReadOnly}
      onCommit={(value) => engine({ [field]: value }, label.toLowerCase())}
      onClear={() => engine({ [field]: null }, label.toLowerCase())}
    />
  );
  return (
    <FormSection title={partTitle(titled, "Engines")}>
      {figure({ label: "Engines", unit: "", min: 1, max: 20, isWhole: true, value: engines.count }, (count) => ({
        count,
      }))}
      {figure({ label: "Thrust per engine", unit: "kN", max: 1e5, value: engines.thrustN / 1000 }, (kN) => ({
        thrustN: kN * 1000,
      }))}
      {figure({ label: "Isp at full thrust", unit: "s", max: 2000, value: engines.ispFullS }, (ispFullS) => ({
        ispFullS,
      }))}
      {figure({ label: "Isp at lowest throttle", unit: "s", max: 2000, value: engines.ispMinimumS }, (ispMinimumS) => ({
        ispMinimumS,
      }))}
      {figure(
        {
          label: "Lowest throttle",
          unit: "%",
          max: 100,
          value: percent(engines.minimumThrottle),
          origin: "100 %: it cannot be throttled",
        },
        (share) => ({ minimumThrottle: share / 100 }),
      )}
      {figure(
        {
          label: "Mixture ratio",
          unit: "",
          max: 100,
          step: 0.1,
          value: engines.mixtureRatio,
          origin: "oxidiser to fuel by mass",
        },
        (mixtureRatio) => ({
          mixtureRatio,
        }),
      )}
      {figure(
        {
          label: "Mixture tolerance",
          unit: "%",
          min: 0,
          max: 20,
          step: 0.1,
          value: engines.mixtureSpreadPercent,
          origin: "both propellants are loaded for the worse case",
        },
        (mixtureSpreadPercent) => ({ mixtureSpreadPercent }),
      )}
      <ChoiceField
        label="Oxidiser"
        value={engines.oxidiserId}
        choices={choices}
        isReadOnly={isReadOnly}
        onCommit={(oxidiserId) => engine({ oxidiserId }, "oxidiser")}
      />
      <ChoiceField
        label="Fuel"
        value={engines.fuelId}
        choices={choices}
        isReadOnly={isReadOnly}
        onCommit={(fuelId) => engine({ fuelId }, "fuel")}
      />
      {engines.count > 1 && (
        <ChoiceField
          label="When fewer engines are lit"
          value={engines.choice ?? "the same"}
          choices={choiceWords}
          isReadOnly={isReadOnly}
          origin="unless a step names them"
          onCommit={(choice) => engine({ choice }, "choice of engines")}
        />
      )}
      {rating("Rated ignitions", "", "ratedIgnitions")}
      {rating("Rated burn time", "s", "ratedBurnSeconds")}
    </FormSection>
  );
};

const Thrusters = ({
  titled,
  thrusters,
  tanks,
  propellants,
  isReadOnly,
  put,
}: PartFieldsProps & { readonly thrusters: readonly ThrusterSet[]; readonly tanks: Tanks }) => {
  const choices = tanks.map(({ propellantId }) => ({ id: propellantId, name: nameIn(propellants, propellantId) }));
  const thruster = (index: number, patch: Partial<ThrusterSet>): void =>
    put({ thrusters: thrusters.map((set, i) => (i === index ? { ...set, ...patch } : set)) }, "thrusters");
  return (
    <FormSection
      title={partTitle(titled, "Thrusters")}
      aside={
        !isReadOnly &&
        thrusters.length < 4 &&
        choices[0] !== undefined && (
          <Button
            look="quiet"
            onPress={() =>
              put(
                {
                  thrusters: [
                    ...thrusters,
                    {
                      name: `thrusters ${String(thrusters.length + 1)}`,
                      ispS: 225,
                      thrustN: 400,
                      parts: [{ propellantId: (choices.at(-1) ?? choices[0])?.id ?? "", parts: 1 }],
                    },
                  ],
                },
                "thrusters",
              )
            }
          >
            Add
          </Button>
        )
      }
    >
      {thrusters.map((set, index) => (
        <div key={set.name} className="lander-item">
          <TextField
            label="Name"
            most={80}
            isRequired
            value={set.name}
            isReadOnly={isReadOnly}
            onCommit={(name) => thruster(index, { name })}
          />
          <NumberField
            label="Isp"
            unit="s"
            min={0}
            isMinOpen
            max={2000}
            value={set.ispS}
            isReadOnly={isReadOnly}
            onCommit={(ispS) => thruster(index, { ispS })}
          />
          {choices.map(({ id, name }) => (
            <NumberField
              key={id}
              label={name}
              unit="parts"
              min={0}
              max={1000}
              step={0.05}
              value={set.parts.find(({ propellantId }) => propellantId === id)?.parts ?? 0}
              isReadOnly={isReadOnly}
              onCommit={(parts) =>
                thruster(index, {
                  parts: [
                    ...set.parts.filter(({ propellantId }) => propellantId !== id),
                    ...(parts > 0 ? [{ propellantId: id, parts }] : []),
                  ],
                })
              }
            />
          ))}
          {!isReadOnly && (
            <Button
              look="quiet"
              onPress={() => put({ thrusters: thrusters.filter((_, i) => i !== index) }, "thrusters")}
            >
              Remove {set.name}
            </Button>
          )}
        </div>
      ))}
    </FormSection>
  );
};
