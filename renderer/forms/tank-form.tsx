/** A tank: whose it is, what it holds and how much it may, must and should. */
import type { FormProps } from "../editing/editing.ts";
import { daysToEmpty } from "../../app/storage/level.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { formatMass } from "../format/mass.ts";
import { formatSpan } from "../format/instant.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { FormSection, StatedRow } from "../widgets/form-row.tsx";
import { EditChoice, EditNumber, EditText, choicesOf } from "../editing/bound-fields.tsx";
import { levelNow, rateNow } from "../state/tank-now.ts";
import { OpeningLevel } from "./opening-level.tsx";
import { holdsKg } from "./tank-volume.ts";

export const TankForm = ({ edit }: FormProps<Tank>) => {
  const { value, plan } = edit;
  const density = plan.propellants.find(({ id }) => id === value.propellantId)?.densityKgPerM3 ?? 0;
  const holds = holdsKg(value, density);
  const level = levelNow(plan, value.id);
  const rate = rateNow(plan, value.id);
  const empty = daysToEmpty(level, rate.kPerDay, rate.cKgPerDay);
  return (
    <>
      <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.tanks} />
      <EditChoice
        edit={edit}
        field="ownerId"
        label="Of"
        choices={[...choicesOf(plan.depots), ...plan.craft.map(({ id, name }) => ({ id, name, note: "aboard" }))]}
        along={(id): Partial<Tank> => ({ ownerKind: plan.depots.some((depot) => depot.id === id) ? "depot" : "craft" })}
      />
      <EditChoice edit={edit} field="propellantId" label="Propellant" choices={choicesOf(plan.propellants)} />
      {!edit.isNew && <OpeningLevel tank={value} plan={plan} />}
      {!edit.isNew && (
        <FormSection title="Now">
          <StatedRow label="Book level at the as-of instant">
            <span className="figures">{formatMass(level)}</span>
          </StatedRow>
          <StatedRow label="Lost at that level">
            <span className="figures">{formatMass(rate.kPerDay * level + rate.cKgPerDay)} a day</span>
          </StatedRow>
          <StatedRow label="Empty by loss alone">
            <span className="figures">{empty === null ? "never" : `in ${formatSpan(empty * DAY_MS)}`}</span>
          </StatedRow>
        </FormSection>
      )}
      <FormSection title="Limits">
        <EditNumber
          edit={edit}
          field="volumeM3"
          label="Inner volume"
          unit="m³"
          min={0}
          max={1e6}
          isMinOpen
          emptyWords="not stated"
        />
        <EditNumber edit={edit} field="ullagePercent" label="Ullage kept" unit="%" min={0} max={90} />
        <EditNumber
          edit={edit}
          field="maximumFillKg"
          label="Maximum fill"
          unit="kg"
          min={0}
          max={holds === null ? 1e9 : Math.floor(holds)}
          step={100}
          origin={holds === null ? null : `the volume holds ${formatMass(holds)} under its ullage`}
        />
        <EditNumber
          edit={edit}
          field="heelKg"
          label="Heel"
          unit="kg"
          min={0}
          max={value.maximumFillKg}
          step={10}
          origin="cannot be drawn"
        />
        <EditNumber
          edit={edit}
          field="reserveKg"
          label="Reserve"
          unit="kg"
          min={0}
          max={value.maximumFillKg}
          step={10}
          origin="kept for the unforeseen, counted from empty"
        />
        <EditNumber
          edit={edit}
          field="rank"
          label="Order"
          unit=""
          min={0}
          max={99}
          isWhole
          emptyWords="by loss rate"
          origin="filled and drawn, lowest first"
        />
      </FormSection>
    </>
  );
};
