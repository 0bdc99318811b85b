/** What a profile brings home beyond the residual: a mass of each propellant, a share of each load, or a Δv. */
import type { Profile, Reserve } from "../../app/entity/profile.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import type { Editing } from "../editing/editing.ts";
import { nameIn } from "../../app/words/named.ts";

const kinds = [
  { id: "percent of load", name: "a share of each load" },
  { id: "delta-v", name: "a Δv" },
  { id: "mass", name: "a mass of each propellant" },
] as const;

const fresh: { readonly [K in Reserve["kind"]]: Reserve } = {
  "percent of load": { kind: "percent of load", percent: 2 },
  "delta-v": { kind: "delta-v", mPerS: 50 },
  mass: { kind: "mass", lines: [] },
};

export const ReserveFields = ({ edit }: { edit: Editing<Profile> }) => {
  const { value, plan, isReadOnly } = edit;
  const { reserve } = value;
  const put = (next: Reserve): void => edit.change({ reserve: next }, "reserve");
  const lander = plan.craftClasses.find(({ id }) => id === value.classId)?.lander;
  return (
    <FormSection title="Reserve at the end">
      <ChoiceField
        label="Stated as"
        value={reserve.kind}
        choices={kinds}
        isReadOnly={isReadOnly}
        fault={edit.faultOf("reserve")}
        onCommit={(kind) => put(fresh[kind])}
      />
      {reserve.kind === "percent of load" && (
        <NumberField
          label="Share"
          unit="%"
          min={0}
          max={90}
          value={reserve.percent}
          isReadOnly={isReadOnly}
          onCommit={(percent) => put({ kind: "percent of load", percent })}
        />
      )}
      {reserve.kind === "delta-v" && (
        <NumberField
          label="Δv"
          unit="m/s"
          min={0}
          max={20_000}
          step={10}
          value={reserve.mPerS}
          isReadOnly={isReadOnly}
          onCommit={(mPerS) => put({ kind: "delta-v", mPerS })}
        />
      )}
      {reserve.kind === "mass" &&
        (lander?.tanks ?? []).map(({ propellantId }) => (
          <NumberField
            key={propellantId}
            label={nameIn(plan.propellants, propellantId)}
            unit="kg"
            min={0}
            max={1e9}
            step={10}
            value={reserve.lines.find((line) => line.propellantId === propellantId)?.massKg ?? 0}
            isReadOnly={isReadOnly}
            onCommit={(massKg) =>
              put({
                kind: "mass",
                lines: [
                  ...reserve.lines.filter((line) => line.propellantId !== propellantId),
                  { propellantId, massKg },
                ],
              })
            }
          />
        ))}
    </FormSection>
  );
};
