/** What a sortie flown by a profile carries: the load follows from it. */
import type { Entity } from "../../app/entity/entities.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { choicesOf } from "../editing/bound-fields.tsx";
import type { Editing } from "../editing/editing.ts";
import { demandPatch } from "./demand-patch.ts";

type Demand = Extract<Sortie["demand"], { readonly kind: "profile" }>;

interface ProfileDemandProps {
  readonly edit: Editing<Sortie>;
  readonly demand: Demand;
  readonly profiles: readonly Entity<"profile">[];
}

export const ProfileDemand = ({ edit, demand, profiles }: ProfileDemandProps) => {
  const put = (patch: Partial<Demand>, words: string): void =>
    edit.change(demandPatch(edit, { ...demand, ...patch }), words);
  const number = (field: "cargoDownKg" | "cargoUpKg" | "crew", label: string, unit: string, max: number) => (
    <NumberField
      label={label}
      unit={unit}
      min={0}
      max={max}
      isWhole={field === "crew"}
      step={field === "crew" ? 1 : 10}
      value={demand[field]}
      isReadOnly={edit.isReadOnly}
      onCommit={(value) => put({ [field]: value }, label.toLowerCase())}
    />
  );
  return (
    <>
      <ChoiceField
        label="Profile"
        value={demand.profileId}
        choices={choicesOf(profiles)}
        isReadOnly={edit.isReadOnly}
        onCommit={(profileId) => put({ profileId }, "profile")}
      />
      {number("cargoDownKg", "Cargo down", "kg", 1e6)}
      {number("cargoUpKg", "Cargo up", "kg", 1e6)}
      {number("crew", "Crew", "", 100)}
    </>
  );
};
