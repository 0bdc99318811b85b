/** A burn of the main engines: where its Δv comes from, margin, engines, ignitions, throttle. */
import type { BurnStep } from "../../../../app/entity/profile.ts";
import { transferBurnMPerS } from "../../../../app/sortie/transfer-burn.ts";
import { ChoiceField } from "../../../widgets/choice-field.tsx";
import { NumberField } from "../../../widgets/number-field.tsx";
import type { StepFieldsProps } from "../step-fields.ts";
import { DeltaVFields } from "./delta-v-fields.tsx";
import { StageField } from "./stage-field.tsx";
import { stagesOf } from "../../../../app/sortie/stage.ts";
import { withStage } from "../edit-steps.ts";
import { LitFields } from "./lit-fields.tsx";

const phases = [
  { id: "transfer", name: "in space" },
  { id: "descent", name: "ends on the surface" },
  { id: "ascent", name: "starts on the surface" },
] as const;

/** Engines are named by their numbers in one stage; another stage begins with all of its own. */
const ofStage = (step: BurnStep, stage: string | undefined): BurnStep => {
  const { engineNumbers: _dropped, ...others } = step;
  return withStage({ ...others, enginesLit: null }, stage);
};

export const BurnFields = ({ step, lander, isReadOnly, onChange }: StepFieldsProps<BurnStep>) => {
  const engines = stagesOf(lander).find(({ name }) => name === (step.stage ?? null))?.engines ?? lander.engines;
  const put = (patch: Partial<BurnStep>): void => onChange({ ...step, ...patch });
  const choosePhase = (phase: BurnStep["phase"]): void => {
    // An integrated descent is no longer one when the burn ends elsewhere.
    const { deltaV } = step;
    if (deltaV.kind === "stated") return put({ phase });
    const mPerS =
      deltaV.kind === "computed transfer"
        ? Math.round(transferBurnMPerS(deltaV))
        : deltaV.kind === "computed descent"
          ? 2076
          : 1874;
    put({ phase, deltaV: { kind: "stated", mPerS, allowanceMPerS: deltaV.allowanceMPerS, basis: "assumed" } });
  };
  return (
    <>
      <StageField
        label="Burns"
        stage={step.stage}
        lander={lander}
        isReadOnly={isReadOnly}
        onCommit={(stage) => onChange(ofStage(step, stage))}
      />
      <ChoiceField label="Where" value={step.phase} choices={phases} isReadOnly={isReadOnly} onCommit={choosePhase} />
      <DeltaVFields step={step} isReadOnly={isReadOnly} onChange={(deltaV) => put({ deltaV })} />
      <NumberField
        label="Δv margin"
        unit="%"
        min={0}
        max={100}
        value={step.marginPercent}
        isReadOnly={isReadOnly}
        origin="counted as burned"
        onCommit={(marginPercent) => put({ marginPercent })}
      />
      <LitFields step={step} engines={engines} isReadOnly={isReadOnly} onChange={onChange} />
      <NumberField
        label="Ignitions of each"
        unit=""
        min={0}
        max={100}
        isWhole
        value={step.ignitions}
        isReadOnly={isReadOnly}
        onCommit={(ignitions) => put({ ignitions })}
      />
      <NumberField
        label="Throttle"
        unit="%"
        min={Number((engines.minimumThrottle * 100).toPrecision(6))}
        max={100}
        value={Number((step.throttle * 100).toPrecision(9))}
        isReadOnly={isReadOnly}
        onCommit={(percent) => put({ throttle: percent / 100 })}
      />
    </>
  );
};
