/** What a sortie needs aboard and brings home: as the lander's class says, or stated for this one. */
import type { CraftClass } from "../../app/entity/craft.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import { formatMass } from "../format/mass.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection, StatedRow } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { PropellantMark } from "../widgets/propellant-mark.tsx";
import { demandPatch } from "./demand-patch.ts";
import { ProfileDemand } from "./profile-demand.tsx";
import type { Editing } from "../editing/editing.ts";

interface SortieDemandProps {
  readonly edit: Editing<Sortie>;
  readonly landerClass: CraftClass | undefined;
}

const ways = [
  { id: "class", name: "class default" },
  { id: "stated", name: "entered here" },
  { id: "profile", name: "by a profile", note: "from the lander’s sheet" },
] as const;

export const SortieDemand = ({ edit, landerClass }: SortieDemandProps) => {
  const { value, plan } = edit;
  const classLines = landerClass?.propellants ?? [];
  const demand = value.demand;
  const profiles = plan.profiles.filter(({ classId }) => classId === landerClass?.id);
  const demandOf = (kind: string): Sortie["demand"] => {
    const [profile] = profiles;
    if (kind === "stated")
      return {
        kind,
        lines: classLines.map(({ propellantId, loadKg, returnKg }) => ({ propellantId, loadKg, returnKg })),
      };
    if (kind === "profile" && profile !== undefined)
      return { kind, profileId: profile.id, cargoDownKg: 0, cargoUpKg: 0, crew: 0 };
    return { kind: "class" };
  };
  const choose = (kind: string): void => edit.change(demandPatch(edit, demandOf(kind)), "demand");
  const propellantOf = (id: string) => plan.propellants.find((propellant) => propellant.id === id);
  return (
    <FormSection title="Needs">
      <ChoiceField
        label="Loads and returns"
        value={demand.kind}
        choices={ways.filter(({ id }) => id !== "profile" || profiles.length > 0)}
        isReadOnly={edit.isReadOnly}
        fault={edit.faultOf("demand")}
        onCommit={choose}
      />
      {demand.kind === "class" &&
        classLines.map((line) => (
          <StatedRow key={line.propellantId} label={propellantOf(line.propellantId)?.name ?? line.propellantId}>
            <span className="figures">
              {formatMass(line.loadKg)} out, {formatMass(line.returnKg)} home
            </span>
          </StatedRow>
        ))}
      {demand.kind === "profile" && <ProfileDemand edit={edit} demand={demand} profiles={profiles} />}
      {demand.kind === "stated" &&
        demand.lines.map((line, index) => {
          const classLine = classLines.find(({ propellantId }) => propellantId === line.propellantId);
          const propellant = propellantOf(line.propellantId);
          const put = (patch: Partial<typeof line>): void =>
            edit.change(
              {
                demand: {
                  kind: "stated",
                  lines: demand.lines.map((other, place) => (place === index ? { ...other, ...patch } : other)),
                },
              },
              `${(propellant?.name ?? "").toLowerCase()} needed`,
            );
          return (
            <div key={line.propellantId} className="demand-line">
              <PropellantMark propellant={propellant} />
              <NumberField
                label="Aboard at departure"
                unit="kg"
                min={0}
                max={classLine?.capacityKg ?? 1e9}
                step={100}
                value={line.loadKg}
                isReadOnly={edit.isReadOnly}
                origin={classLine === undefined ? null : `the class: ${formatMass(classLine.loadKg)}`}
                onCommit={(loadKg) => put({ loadKg })}
              />
              <NumberField
                label="Aboard at return"
                unit="kg"
                min={0}
                max={line.loadKg}
                step={10}
                value={line.returnKg}
                isReadOnly={edit.isReadOnly}
                origin={classLine === undefined ? null : `the class: ${formatMass(classLine.returnKg)}`}
                onCommit={(returnKg) => put({ returnKg })}
              />
            </div>
          );
        })}
    </FormSection>
  );
};
