/** Cargo and crew for which the sheet is computed, and the way to let planned sorties fly it so. */
import type { Change, Entity } from "../../../app/entity/entities.ts";
import type { Mission } from "../../../app/entity/profile.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";
import { useSession } from "../../state/use-session.ts";
import { Button } from "../../widgets/button.tsx";
import { NumberField } from "../../widgets/number-field.tsx";

interface MissionFieldsProps {
  readonly mission: Mission;
  readonly shown: Entity<"profile">;
  readonly current: CaseForecast;
  readonly isReadOnly: boolean;
  readonly onChange: (mission: Mission) => void;
}

export const MissionFields = ({ mission, shown, current, isReadOnly, onChange }: MissionFieldsProps) => {
  const session = useSession();
  const { plan } = current;
  const landers = new Set(plan.craft.filter(({ classId }) => classId === shown.classId).map(({ id }) => id));
  const planned = plan.sorties.filter(({ status, landerId }) => status === "planned" && landers.has(landerId));
  const flyAll = (): void => {
    const demand = { kind: "profile" as const, profileId: shown.id, ...mission };
    const changes = planned.map((sortie): Change => ({ op: "put", kind: "sortie", value: { ...sortie, demand } }));
    void session.edit(`Fly ${String(planned.length)} sorties by ${shown.name}`.slice(0, 120), changes);
  };
  const cargo = (field: "cargoDownKg" | "cargoUpKg", label: string) => (
    <NumberField
      label={label}
      unit="kg"
      min={0}
      max={1e6}
      step={100}
      value={mission[field]}
      onCommit={(value) => onChange({ ...mission, [field]: value })}
    />
  );
  return (
    <div className="mission-fields">
      {cargo("cargoDownKg", "Cargo down")}
      {cargo("cargoUpKg", "Cargo up")}
      <NumberField
        label="Crew"
        unit="persons"
        min={0}
        max={100}
        isWhole
        value={mission.crew}
        onCommit={(crew) => onChange({ ...mission, crew })}
      />
      {!isReadOnly && planned.length > 0 && (
        <Button onPress={flyAll}>
          {planned.length === 1
            ? "Use this profile for the planned sortie"
            : `Use this profile for all ${String(planned.length)} planned sorties`}
        </Button>
      )}
    </div>
  );
};
