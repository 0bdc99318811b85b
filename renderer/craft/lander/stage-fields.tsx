/** The further stages of a lander: each with its mass, engines, thrusters and tanks, or the way to add one. */
import type { EngineSet, FurtherStage, Lander } from "../../../app/entity/lander.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { Button } from "../../widgets/button.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { TextField } from "../../widgets/text-field.tsx";
import { freshStage } from "./edit-stages.ts";
import { EngineFields } from "./engine-fields.tsx";
import { TankFields } from "./tank-fields.tsx";

interface StageFieldsProps {
  readonly lander: Lander;
  readonly propellants: PlanSnapshot["propellants"];
  readonly isReadOnly: boolean;
  readonly put: (stages: readonly FurtherStage[], words: string) => void;
  readonly rename: (index: number, name: string) => void;
}

interface OneStageProps extends Omit<StageFieldsProps, "put" | "rename"> {
  readonly stage: FurtherStage;
  readonly change: (patch: Partial<FurtherStage>, words: string) => void;
  readonly rename: (name: string) => void;
  readonly remove: () => void;
}

/** An engine for a stage that had none: the lander's own, if the stage has its tanks. */
const firstEngines = (lander: Lander, { tanks }: FurtherStage): EngineSet => ({
  ...lander.engines,
  oxidiserId: tanks[0]?.propellantId ?? lander.engines.oxidiserId,
  fuelId: tanks[1]?.propellantId ?? lander.engines.fuelId,
});

const OneStage = ({ lander, stage, propellants, isReadOnly, change, rename, remove }: OneStageProps) => {
  const { engines } = stage;
  const fields = {
    titled: stage.name,
    propellants,
    isReadOnly,
    put: (patch: Partial<FurtherStage>, words: string) => change(patch, `${words} of ${stage.name}`),
  };
  return (
    <>
      <FormSection
        title={stage.name}
        aside={
          !isReadOnly && (
            <Button look="quiet" onPress={remove} aria-label={`Remove ${stage.name}`}>
              Remove
            </Button>
          )
        }
      >
        <TextField
          label="Name"
          most={80}
          isRequired
          value={stage.name}
          isReadOnly={isReadOnly}
          origin="a further stage: aboard at departure, until a step drops it"
          onCommit={rename}
        />
        <NumberField
          label="Dry"
          unit="kg"
          min={0}
          isMinOpen
          max={1e7}
          step={100}
          value={stage.dryKg}
          isReadOnly={isReadOnly}
          origin="without propellant"
          onCommit={(dryKg) => change({ dryKg }, `dry mass of ${stage.name}`)}
        />
        <NumberField
          label="Reserve of its load"
          unit="%"
          min={0}
          max={90}
          value={stage.reservePercent}
          isReadOnly={isReadOnly}
          origin="left in it beyond the residual"
          onCommit={(reservePercent) => change({ reservePercent }, `reserve of ${stage.name}`)}
        />
        {!isReadOnly && (
          <Button
            look="quiet"
            onPress={() =>
              change({ engines: engines === null ? firstEngines(lander, stage) : null }, `engines of ${stage.name}`)
            }
          >
            {engines === null ? `Give ${stage.name} engines` : `${stage.name} has no engines`}
          </Button>
        )}
      </FormSection>
      <EngineFields {...fields} part={{ engines, thrusters: stage.thrusters, tanks: stage.tanks }} />
      <TankFields {...fields} tanks={stage.tanks} least={0} />
    </>
  );
};

export const StageFields = ({ lander, propellants, isReadOnly, put, rename }: StageFieldsProps) => {
  const stages = lander.furtherStages ?? [];
  return (
    <>
      {stages.map((stage, index) => (
        <OneStage
          key={index}
          lander={lander}
          stage={stage}
          propellants={propellants}
          isReadOnly={isReadOnly}
          change={(patch, words) =>
            put(
              stages.map((other, i) => (i === index ? { ...stage, ...patch } : other)),
              words,
            )
          }
          rename={(name) => rename(index, name)}
          remove={() =>
            put(
              stages.filter((_, i) => i !== index),
              "stages",
            )
          }
        />
      ))}
      {!isReadOnly && stages.length < 3 && (
        <FormSection title={stages.length === 0 ? "One stage" : "Another stage"}>
          <Button look="quiet" onPress={() => put([...stages, freshStage(lander)], "stages")}>
            Add a stage
          </Button>
        </FormSection>
      )}
    </>
  );
};
