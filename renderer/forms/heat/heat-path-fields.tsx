/** Further ways for heat to get in: penetrations, supports, mixing, other loads; each a line with a note. */
import { heatCauses, type HeatCause, type HeatPath } from "../../../app/entity/heat-balance.ts";
import { Button } from "../../widgets/button.tsx";
import { ChoiceField } from "../../widgets/choice-field.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { TextField } from "../../widgets/text-field.tsx";
import { freshPath } from "../../heat/fresh-balance.ts";
import { numberOf, type Part, placeOf } from "../part.ts";

const causeChoices = heatCauses.map((id: HeatCause) => ({ id, name: id }));

const PathFields = ({ part, onRemove }: { part: Part<HeatPath>; onRemove: () => void }) => {
  const { value, isReadOnly, commit } = part;
  return (
    <div className="heat-part">
      <TextField
        label="Heat path"
        value={value.label}
        most={80}
        isRequired
        isReadOnly={isReadOnly}
        onCommit={(label) => commit({ ...value, label }, "name of a heat path")}
      />
      <ChoiceField
        label="Cause"
        value={value.cause}
        choices={causeChoices}
        isReadOnly={isReadOnly}
        onCommit={(cause) => commit({ ...value, cause }, "cause of a heat path")}
      />
      <NumberField {...numberOf(part, "heatW", "heat of a path")} label="Heat" unit="W" min={0} max={1e7} />
      <TextField
        label="Note"
        value={value.note}
        most={2000}
        isReadOnly={isReadOnly}
        onCommit={(note) => commit({ ...value, note }, "note of a heat path")}
      />
      {!isReadOnly && (
        <Button look="quiet" onPress={onRemove} aria-label={`Remove ${value.label}`}>
          Remove
        </Button>
      )}
    </div>
  );
};

export const HeatPathFields = ({ part }: { part: Part<HeatPath[]> }) => (
  <FormSection
    title="Further heat paths"
    aside={
      !part.isReadOnly && (
        <Button look="quiet" onPress={() => part.commit([...part.value, freshPath()], "heat paths")}>
          Add a path
        </Button>
      )
    }
  >
    {part.value.length === 0 && <p className="form-advice">None: lines, struts and mixers let in nothing.</p>}
    {part.value.map((_, place) => (
      <PathFields
        // eslint-disable-next-line react/no-array-index-key -- a line has no name of its own but its place
        key={place}
        part={placeOf(part, place)}
        onRemove={() => part.commit(part.value.toSpliced(place, 1), "heat paths")}
      />
    ))}
  </FormSection>
);
