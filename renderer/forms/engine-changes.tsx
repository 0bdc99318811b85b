/** When a lander's engines were or will be changed for new ones; each change is an event with its date. */
import type { Craft } from "../../app/entity/craft.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { EngineChecks } from "../widgets/engine-checks.tsx";
import { Button } from "../widgets/button.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { TextField } from "../widgets/text-field.tsx";
import type { Editing } from "../editing/editing.ts";

type EngineChange = Craft["engineChanges"][number];

export const EngineChanges = ({ edit }: { edit: Editing<Craft> }) => {
  const { value, plan, isReadOnly } = edit;
  const changes = value.engineChanges;
  const put = (next: readonly EngineChange[]): void =>
    edit.change({ engineChanges: next.toSorted((a, b) => a.at - b.at) }, "engine changes");
  const patch = (index: number, part: Partial<EngineChange>): void =>
    put(changes.map((change, i) => (i === index ? { ...change, ...part } : change)));
  const engines = plan.craftClasses.find(({ id }) => id === value.classId)?.lander?.engines.count ?? 1;
  const all = Array.from({ length: engines }, (_, index) => index + 1);
  /** All of them is said by naming none: so it stays right if the lander gets another number of engines. */
  const which = (index: number, engineNumbers: number[]): void =>
    put(
      changes.map((change, i) => {
        if (i !== index) return change;
        const { engineNumbers: _dropped, ...others } = change;
        return engineNumbers.length === engines ? others : { ...others, engineNumbers };
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
          {engines > 1 && (
            <EngineChecks
              label="Which"
              count={engines}
              chosen={change.engineNumbers ?? all}
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
