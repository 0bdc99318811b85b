/** A lander's data sheet as fields; each committed field is one step that can be undone. */
import type { LanderFieldsProps } from "./lander-fields.ts";
import { useState } from "react";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Change, Entity } from "../../../app/entity/entities.ts";
import { profileFaults } from "../../../app/sortie/plan-rule.ts";
import { type Lander, lander as landerSchema } from "../../../app/entity/lander.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import { Button } from "../../widgets/button.tsx";
import { FormSection } from "../../widgets/form-row.tsx";
import { NumberField } from "../../widgets/number-field.tsx";
import { firstDescription } from "./described.ts";
import { renameAlong, withStages } from "./edit-stages.ts";
import { EngineFields } from "./engine-fields.tsx";
import { StageFields } from "./stage-fields.tsx";
import { TankFields } from "./tank-fields.tsx";
import { UseFields } from "./use-fields.tsx";
import "./lander.css";

/** Why the plan cannot take this description; null: it can. */
const faultWith = (plan: PlanSnapshot, craftClass: Entity<"craftClass">, lander: Lander): string | null => {
  const form = landerSchema.safeParse(lander).error?.issues[0];
  if (form !== undefined) return form.message;
  const crafts = new Set(plan.craft.filter(({ classId }) => classId === craftClass.id).map(({ id }) => id));
  const rows = {
    craft: plan.craft,
    craftClass: [{ ...craftClass, lander }],
    profile: plan.profiles.filter(({ classId }) => classId === craftClass.id),
    propellant: plan.propellants,
    sortie: plan.sorties.filter(({ landerId }) => crafts.has(landerId)),
  };
  return profileFaults(rows)[0]?.message ?? null;
};

/** The plan with the profiles that are changed along. */
const laidOver = (plan: PlanSnapshot, along: readonly Change[]): PlanSnapshot => {
  const put = new Map(
    along.flatMap((change) =>
      change.op === "put" && change.kind === "profile" ? [[change.value.id, change.value]] : [],
    ),
  );
  return { ...plan, profiles: plan.profiles.map((profile) => put.get(profile.id) ?? profile) };
};

export const LanderForm = ({ craftClass, plan }: { craftClass: Entity<"craftClass">; plan: PlanSnapshot }) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [fault, setFault] = useState<string | null>(null);
  const save = async (lander: Lander, words: string, along: readonly Change[] = []): Promise<void> => {
    const found = faultWith(laidOver(plan, along), craftClass, lander);
    setFault(found);
    if (found !== null) return;
    const label = `Change ${words} of ${craftClass.name}`.slice(0, 120);
    const changes: Change[] = [{ op: "put", kind: "craftClass", value: { ...craftClass, lander } }, ...along];
    const reply = await session.edit(label, changes);
    if (!reply.ok) setFault(reply.failure.message);
  };
  const renameStage = async (lander: Lander, index: number, name: string): Promise<void> => {
    const stages = lander.furtherStages ?? [];
    const from = stages[index]?.name;
    if (from === undefined || from === name) return;
    const next = stages.map((stage, i) => (i === index ? { ...stage, name } : stage));
    await save(withStages(lander, next), `name of ${from}`, renameAlong(plan, craftClass, from, name));
  };
  const { lander } = craftClass;
  if (lander === null) {
    const first = firstDescription(craftClass, plan);
    return (
      <div className="lander-form">
        <p className="form-advice">
          {first === null
            ? "The class must carry an oxidiser and a fuel before its lander can be described."
            : "Not described yet. With its masses, engines and tanks the load of a sortie is computed instead of stated."}
        </p>
        {first !== null && !isReadOnly && (
          <Button look="primary" onPress={() => void save(first, "lander")}>
            Describe the lander
          </Button>
        )}
      </div>
    );
  }
  const fields: LanderFieldsProps = {
    lander,
    propellants: plan.propellants,
    isReadOnly,
    put: (patch, words) => void save({ ...lander, ...patch }, words),
  };
  return (
    <div className="lander-form">
      {fault !== null && (
        <p className="form-fault" role="alert">
          Not saved: {fault}
        </p>
      )}
      <FormSection title="Masses">
        <NumberField
          label="Dry"
          unit="kg"
          min={0}
          isMinOpen
          max={1e7}
          step={100}
          value={lander.dryKg}
          isReadOnly={isReadOnly}
          origin="without propellant, cargo and crew"
          onCommit={(dryKg) => fields.put({ dryKg }, "dry mass")}
        />
        <NumberField
          label="Maximum cargo"
          unit="kg"
          min={0}
          max={1e9}
          step={100}
          value={lander.cargoLimitKg}
          placeholder="not stated"
          isReadOnly={isReadOnly}
          onCommit={(cargoLimitKg) => fields.put({ cargoLimitKg }, "cargo limit")}
          onClear={() => fields.put({ cargoLimitKg: null }, "cargo limit")}
        />
        <NumberField
          label="Mass per person"
          unit="kg"
          min={0}
          max={1000}
          step={10}
          value={lander.personKg}
          isReadOnly={isReadOnly}
          origin="with suit and belongings"
          onCommit={(personKg) => fields.put({ personKg }, "mass of a person")}
        />
      </FormSection>
      <EngineFields {...fields} titled={null} part={lander} />
      <TankFields {...fields} titled={null} tanks={lander.tanks} least={1} />
      <UseFields {...fields} />
      <StageFields
        lander={lander}
        propellants={plan.propellants}
        isReadOnly={isReadOnly}
        put={(stages, words) => void save(withStages(lander, stages), words)}
        rename={(index, name) => void renameStage(lander, index, name)}
      />
    </div>
  );
};
