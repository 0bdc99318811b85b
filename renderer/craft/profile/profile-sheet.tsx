/** One profile: its steps at the left, what follows from them at the right and below; redrawn with every edit. */
import { useCallback, useMemo, useState } from "react";
import { screenLook } from "../../../app/picture/look.ts";
import { sortieMassPicture } from "../../../app/picture/sortie-mass-picture.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import type { Lander } from "../../../app/entity/lander.ts";
import type { Mission, ProfileStep } from "../../../app/entity/profile.ts";
import type { SortieSheet } from "../../../app/sortie/sheet.ts";
import { formatMass } from "../../format/mass.ts";
import { formatNumber, withUnit } from "../../format/number.ts";
import { useApp } from "../../state/use-session.ts";
import { Button } from "../../widgets/button.tsx";
import { Notice } from "../../widgets/notice.tsx";
import { CheckList } from "./check-list.tsx";
import { replaceStep, type StepList as Steps } from "./edit-steps.ts";
import { FlightPlots } from "./flight-plots.tsx";
import { LegTable } from "./leg-table.tsx";
import { LoadTable } from "./load-table.tsx";
import { Plot } from "../../plot/plot.tsx";
import { PlanePlot } from "./plane-plot.tsx";
import { StageTable } from "./stage-table.tsx";
import { StepForm } from "./step-form.tsx";
import { StepList } from "./step-list.tsx";
import { trySheet } from "./try-sheet.ts";
import { useProfileDraft } from "./use-profile-draft.ts";
import { WayTable } from "./way-table.tsx";

interface ProfileSheetProps {
  readonly profile: Entity<"profile">;
  readonly profiles: readonly Entity<"profile">[];
  readonly lander: Lander;
  readonly plan: PlanSnapshot;
  readonly mission: Mission;
  readonly isReadOnly: boolean;
  /** Kilograms loaded on the ground per kilogram handed over, by propellant. */
  readonly launchedPerKg: ReadonlyMap<string, number>;
}

const Figures = ({ sheet }: { sheet: SortieSheet }) => {
  const figures = [
    ["Load", formatMass(sheet.loadKg)],
    ["At departure", formatMass(sheet.startMassKg)],
    ["At return", formatMass(sheet.endMassKg)],
    ["Δv in all", withUnit(formatNumber(sheet.totalDeltaVMPerS), "m/s")],
    ["Ignitions", formatNumber(sheet.ignitions)],
    ["Burn", withUnit(formatNumber(sheet.burnSeconds), "s")],
    ["Away", withUnit(formatNumber(sheet.durationDays, 1), "days")],
  ] as const;
  return (
    <dl className="sheet-figures">
      {figures.map(([name, figure]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className="figures">{figure}</dd>
        </div>
      ))}
    </dl>
  );
};

const notes = ["legs by number, as in the leg table"];

const MassPlot = ({ name, sheet, plan }: { name: string; sheet: SortieSheet; plan: PlanSnapshot }) => {
  const unit = useApp((state) => state.massUnit);
  const compose = useCallback(
    (size: { width: number; height: number }) => sortieMassPicture(sheet, plan.propellants, unit, size, screenLook),
    [sheet, plan.propellants, unit],
  );
  const words = `Mass by leg, from ${formatMass(sheet.startMassKg)} at departure to ${formatMass(sheet.endMassKg)} at the end`;
  return <Plot title={`Mass by leg: ${name}`} notes={notes} height={240} label={words} compose={compose} />;
};

export const ProfileSheet = ({
  profile,
  profiles,
  lander,
  plan,
  mission,
  isReadOnly,
  launchedPerKg,
}: ProfileSheetProps) => {
  const draft = useProfileDraft(profile, plan);
  const [wanted, setAt] = useState(0);
  const { steps } = draft.value;
  const at = Math.max(0, Math.min(wanted, steps.length - 1));
  const answer = useMemo(
    () => trySheet(lander, draft.value, mission, plan.propellants),
    [lander, draft.value, mission, plan.propellants],
  );
  const change = (next: Steps, words: string): void => {
    setAt(next.at);
    draft.change({ ...draft.value, steps: [...next.steps] }, words);
  };
  const step = steps[at];
  const findings = answer.ok ? answer.sheet.findings : [];
  const marked = new Set(findings.flatMap(({ stepIndex }) => (stepIndex === null ? [] : [stepIndex])));
  return (
    <>
      <div className="profile-columns">
        <div className="profile-steps">
          <StepList
            steps={steps}
            at={at}
            lander={lander}
            isReadOnly={isReadOnly}
            marked={marked}
            onShow={setAt}
            onChange={change}
          />
          {step !== undefined && (
            <StepForm
              key={`${String(at)} ${step.kind}`}
              step={step}
              lander={lander}
              propellants={plan.propellants}
              isReadOnly={isReadOnly}
              onChange={(next: ProfileStep) => change(replaceStep(steps, at, next), `“${next.name}”`)}
            />
          )}
        </div>
        <div className="profile-answer">
          {draft.fault !== null && (
            <Notice tone="warning">
              Not saved: {draft.fault}{" "}
              <Button look="link" onPress={draft.takeBack}>
                Revert
              </Button>
            </Notice>
          )}
          {answer.ok ? (
            <>
              <Figures sheet={answer.sheet} />
              <CheckList checks={answer.sheet.checks} propellants={plan.propellants} onShow={setAt} />
              <MassPlot name={draft.value.name} sheet={answer.sheet} plan={plan} />
            </>
          ) : (
            draft.fault === null && <Notice tone="failure">This cannot be flown: {answer.message}.</Notice>
          )}
        </div>
      </div>
      {answer.ok && (
        <>
          <StageTable sheet={answer.sheet} />
          <LegTable sheet={answer.sheet} propellants={plan.propellants} at={at} onShow={setAt} />
          <LoadTable
            sheet={answer.sheet}
            propellants={plan.propellants}
            lines={plan.craftClasses.find(({ id }) => id === profile.classId)?.propellants ?? []}
          />
          <FlightPlots sheet={answer.sheet} />
          <PlanePlot
            lander={lander}
            profile={draft.value}
            mission={mission}
            sheet={answer.sheet}
            launchedPerKg={launchedPerKg}
          />
        </>
      )}
      <WayTable plan={plan} lander={lander} profiles={profiles} shown={draft.value} mission={mission} />
    </>
  );
};
