/** What a fit answers: the levels as a picture, its figures, the way into the plan, the readings it rests on. */
import { memo, useCallback } from "react";
import type { Input } from "../../app/contract/contract.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Tank } from "../../app/entity/tank.ts";
import type { Reading } from "../../app/ledger/journal.ts";
import { propellantInk } from "../../app/picture/ink.ts";
import { AdoptOrNot } from "../fit/adopt-or-not.tsx";
import { Plot } from "../plot/plot.tsx";
import { useQuestion } from "../state/use-question.ts";
import { useApp } from "../state/use-session.ts";
import { levelPicture, levelWords } from "./level-picture.ts";
import { ReadingTable } from "./reading-table.tsx";

interface FitAnswerProps {
  readonly plan: PlanSnapshot;
  readonly tank: Tank;
  readonly readings: readonly Reading[];
  /** The same object for the same question: an answer that comes redraws this part of the view alone. */
  readonly asked: Input<"losses.fit">;
  readonly onLeaveOut: (ids: readonly string[]) => void;
}

const notes = ["mass in the units of the axes", "bars of one standard uncertainty", "dates in UTC"];

export const FitAnswer = memo(function FitAnswer({ plan, tank, readings, asked, onLeaveOut }: FitAnswerProps) {
  const unit = useApp((state) => state.massUnit);
  const { value: fit, failure } = useQuestion("fit", "losses.fit", asked, { title: "Fitting the loss rate" });
  const ink = propellantInk(plan.propellants.find(({ id }) => id === tank.propellantId)?.position ?? 5);
  const compose = useCallback(
    (size: { width: number; height: number }) =>
      fit === null ? { ...size, groups: [] } : levelPicture({ fit, ink, unit }, size),
    [fit, ink, unit],
  );
  return (
    <>
      {failure !== null && (
        <p className="form-fault" role="alert">
          {failure.message}
        </p>
      )}
      {fit !== null && failure === null && (
        <>
          <Plot
            title={`Measured, predicted and fitted level: ${tank.name}`}
            notes={notes}
            height={380}
            label={levelWords({ fit, ink, unit })}
            compose={compose}
          />
          <AdoptOrNot plan={plan} asked={asked} fit={fit} />
        </>
      )}
      <ReadingTable
        readings={readings}
        fit={failure === null ? fit : null}
        leftOutIds={asked.leftOutIds}
        onLeaveOut={onLeaveOut}
      />
    </>
  );
});
