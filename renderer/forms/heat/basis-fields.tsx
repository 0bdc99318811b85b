/** Where a loss rate comes from: stated, by heat balance, or measured; and the fields of each. */
import type { LossBasis, LossPeriod } from "../../../app/entity/loss-period.ts";
import { rateOf } from "../../../app/storage/loss-rate.ts";
import { levelNow } from "../../state/tank-now.ts";
import { type Choice, ChoiceField } from "../../widgets/choice-field.tsx";
import type { Editing } from "../../editing/editing.ts";
import { RateFields } from "../rate-fields.tsx";
import { freshBalance } from "../../heat/fresh-balance.ts";
import { HeatBalanceFields } from "./heat-balance-fields.tsx";
import { MeasuredFields } from "./measured-fields.tsx";

type Kind = LossBasis["kind"];

const choicesFor = (kind: Kind, hasFluid: boolean): readonly Choice<Kind>[] => [
  { id: "stated", name: "stated", note: "a share a day, kg a day, or both" },
  ...(hasFluid || kind === "heat balance"
    ? [{ id: "heat balance", name: "heat balance", note: "insulation, heat paths, coolers" } as const]
    : []),
  // A measured rate is made by a fit in the Losses view.
  ...(kind === "measured" ? [{ id: "measured", name: "measured", note: "fitted on gauge readings" } as const] : []),
];

export const BasisFields = ({ edit }: { edit: Editing<LossPeriod> }) => {
  const { value, plan, isReadOnly } = edit;
  const { basis, tankId } = value;
  const fresh = freshBalance(plan, tankId);
  const fault = edit.faultOf("basis");
  const choose = (kind: Kind): void => {
    if (kind === "heat balance" && fresh !== null) edit.change({ basis: fresh }, "what the loss rate rests on");
    if (kind === "stated") edit.change({ basis: { kind: "stated", ...rateOf(basis) } }, "what the loss rate rests on");
  };
  return (
    <>
      <ChoiceField
        label="Basis"
        value={basis.kind}
        choices={choicesFor(basis.kind, fresh !== null)}
        isReadOnly={isReadOnly}
        onCommit={choose}
      />
      {basis.kind === "stated" && (
        <RateFields
          kPerDay={basis.kPerDay}
          cKgPerDay={basis.cKgPerDay}
          levelKg={edit.isNew ? null : levelNow(plan, tankId)}
          isReadOnly={isReadOnly}
          fault={fault}
          onCommit={(rate, words) => edit.change({ basis: { kind: "stated", ...rate } }, words)}
        />
      )}
      {basis.kind === "heat balance" && (
        <HeatBalanceFields
          balance={basis}
          plan={plan}
          tankId={tankId}
          isReadOnly={isReadOnly}
          fault={fault}
          onCommit={(next, words) => edit.change({ basis: next }, words)}
        />
      )}
      {basis.kind === "measured" && <MeasuredFields basis={basis} />}
    </>
  );
};
