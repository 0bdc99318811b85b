/** When a lander's engines were or will be changed for new ones; each change is an event with its date. */
import type { Craft } from "../../app/entity/craft.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { EngineChecks } from "../widgets/engine-checks.tsx";
import { stagesOf } from "../../app/sortie/stage.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Button } from "../widgets/button.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { TextField } from "../widgets/text-field.tsx";
import type { Editing } from "../editing/editing.ts";

/** Stands for the lander's own stage, which has no name. */
const OWN = "";

const allOf = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);

type EngineChange = Craft["engineChanges"][number];

export const EngineChanges = ({ edit }: { edit: Editing<Craft> }) => {
  const { value, plan, isReadOnly } = edit;
  const changes = value.engineChanges;
  const put = (next: readonly EngineChange[]): void =>
    edit.change({ engineChanges: next.toSorted((a, b) => a.at - b.at) }, "engine changes");
  const patch = (index: number, part: Partial<EngineChange>): void =>
    put(changes.map((change, i) => (i === index ? { ...change, ...part } : change)));
  const lander = plan.craftClasses.find(({ id }) => id === value.classId)?.lander ?? null;
  const stages = lander === null ? [] : stagesOf(lander).filter((stage) => stage.engines !== null);
  const countOf = (change: EngineChange): number =>
    stages.find(({ name }) => name === (change.stage ?? null))?.engines?.count ?? 1;
  /** All of them is said by naming none: so it stays right if the lander gets another number of engines. */
  const which = (index: number, engineNumbers: number[]): void =>
    put(
      changes.map((change, i) => {
        if (i !== index) return change;
        const { engineNumbers: _dropped, ...others } = change;
        return engineNumbers.length === countOf(change) ? others : { ...others, engineNumbers };
      }),
    );
  /** Engines have their numbers in one stage: another one begins with all of its own. */
  const ofStage = (index: number, stage: string): void =>
    put(
      changes.map((change, i) => {
        if (i !== index) return change;
        const { engineNumbers: _numbers, stage: _stage, ...others } = change;
        return stage === OWN ? others : { ...others, stage };
      }),
    );
  const add = (): void => put([...changes, { at: Math.ceil(plan.asOfAt / DAY_MS) * DAY_MS, note: "" }]);
  return (
    <FormSection
      title={changes.length === 0 ? "No engine change" : "Engine changes"}
      aside={
        !isReadOnly && (
          <Button look="quiet" onPress={add} aria-label="Add an engine change">
            Add
          </Button>
        )
      }
    >
      {changes.map((change, index) => (
        <div key={`${String(index)} ${String(change.at)}`}>
          <InstantField
            label="Changed"
            value={change.at}
            isReadOnly={isReadOnly}
            fault={edit.faultOf("engineChanges")}
            onCommit={(at) => patch(index, { at })}
          />
          <TextField
            label="Why"
            most={200}
            value={change.note}
            isReadOnly={isReadOnly}
            onCommit={(note) => patch(index, { note })}
          />
          {(stages.length > 1 || change.stage !== undefined) && (
            <ChoiceField
              label="Of"
              value={change.stage ?? OWN}
              choices={stages.map(({ name }) => ({ id: name ?? OWN, name: name ?? "the lander" }))}
              isReadOnly={isReadOnly}
              onCommit={(stage) => ofStage(index, stage)}
            />
          )}
          {countOf(change) > 1 && (
            <EngineChecks
              label="Which"
              count={countOf(change)}
              chosen={change.engineNumbers ?? allOf(countOf(change))}
              isReadOnly={isReadOnly}
              onChange={(engineNumbers) => which(index, engineNumbers)}
            />
          )}
          {!isReadOnly && (
            <Button look="quiet" onPress={() => put(changes.filter((_, i) => i !== index))}>
              Remove this change
            </Button>
          )}
        </div>
      ))}
    </FormSection>
  );
};
