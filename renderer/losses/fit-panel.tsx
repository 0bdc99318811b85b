/** Measured, predicted and fitted level of a tank; what is fitted, on which readings, and the way into the plan. */
import { useCallback, useMemo, useState } from "react";
import type { Input } from "../../app/contract/contract.ts";
import { ratePieces } from "../../app/forecast/loss-rate.ts";
import type { Tank } from "../../app/ledger/entity/tank.ts";
import { usualPart } from "../../app/losses/fit/usual-part.ts";
import { propellantInk } from "../charts/shape.ts";
import { rateNow } from "../depots/tank-now.ts";
import { Plot } from "../plot/plot.tsx";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { AdoptForm } from "./adopt-form.tsx";
import { FitFigures } from "./fit-figures.tsx";
import { levelPicture, levelWords } from "./level-picture.ts";
import type { MonthsChoice } from "./months-choice.ts";
import { ReadingTable } from "./reading-table.tsx";
import { useAnswer } from "./use-answer.ts";

interface FitPanelProps {
  readonly current: CaseForecast;
  readonly tank: Tank;
  readonly span: Pick<MonthsChoice, "fromAt" | "untilAt">;
}

type Part = Input<"losses.fit">["fitted"];

type RateChanges = Input<"losses.fit">["rateChanges"];

const changeChoices: readonly { readonly id: RateChanges; readonly name: string; readonly note: string }[] = [
  { id: "apart", name: "kept apart", note: "the rate up to the last reading; nothing is assumed of the others" },
  { id: "as one", name: "one rate to all", note: "as if nothing had changed" },
];

const parts: readonly { readonly id: Part; readonly name: string; readonly note: string }[] = [
  { id: "k", name: "the share lost", note: "k, of what is there; the steady loss is held" },
  { id: "c", name: "the steady loss", note: "c, in kg a day; the share is held" },
  { id: "k and c", name: "both", note: "needs readings at very different levels" },
];

const notes = ["mass in the units of the axes", "bars of one standard uncertainty", "dates in UTC"];

export const FitPanel = ({ current, tank, span }: FitPanelProps) => {
  const { plan, view } = current;
  const unit = useApp((state) => state.massUnit);
  const [fitted, setFitted] = useState<Part>(() => usualPart(rateNow(plan, tank.id)));
  const [rateChanges, setRateChanges] = useState<RateChanges>("apart");
  const [fromAt, setFrom] = useState(span.fromAt);
  const [untilAt, setUntil] = useState(span.untilAt);
  const [leftOutIds, setLeftOut] = useState<readonly string[]>([]);
  const readings = useMemo(
    () =>
      view.readings
        .filter(({ tankId, at, isWithdrawn }) => tankId === tank.id && !isWithdrawn && at >= fromAt && at <= untilAt)
        .toSorted((a, b) => a.at - b.at),
    [view.readings, tank.id, fromAt, untilAt],
  );
  const asked = useMemo(
    () => ({
      planCaseId: plan.planCase.id,
      tankId: tank.id,
      fromAt,
      untilAt,
      fitted,
      rateChanges,
      held: null,
      leftOutIds: [...leftOutIds],
    }),
    [plan.planCase.id, tank.id, fromAt, untilAt, fitted, rateChanges, leftOutIds],
  );
  const hasChanges = useMemo(
    () =>
      ratePieces(
        plan.lossPeriods.filter(({ tankId }) => tankId === tank.id),
        fromAt,
        untilAt,
      ).length > 1,
    [plan.lossPeriods, tank.id, fromAt, untilAt],
  );
  const { value: fit, failure } = useAnswer("losses.fit", asked);
  const position = plan.propellants.find(({ id }) => id === tank.propellantId)?.position ?? 5;
  const ink = propellantInk(position);
  const compose = useCallback(
    (size: { width: number; height: number }) =>
      fit === null ? { ...size, groups: [] } : levelPicture({ fit, ink, unit }, size),
    [fit, ink, unit],
  );
  return (
    <section className="fit-panel" aria-label={`Measured loss of ${tank.name}`}>
      <h3>Measured, predicted and fitted level of {tank.name}</h3>
      <div className="loss-fields">
        <ChoiceField label="Fit" value={fitted} choices={parts} onCommit={setFitted} />
        {hasChanges && (
          <ChoiceField label="Changes of rate" value={rateChanges} choices={changeChoices} onCommit={setRateChanges} />
        )}
        <InstantField label="Readings from" value={fromAt} latestAt={untilAt} onCommit={setFrom} />
        <InstantField label="Readings until" value={untilAt} earliestAt={fromAt} onCommit={setUntil} />
      </div>
      {failure !== null && (
        <p className="form-fault" role="alert">
          {failure}
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
          <FitFigures fit={fit} />
          <AdoptForm plan={plan} asked={asked} fit={fit} />
        </>
      )}
      <ReadingTable
        readings={readings}
        fit={failure === null ? fit : null}
        leftOutIds={leftOutIds}
        onLeaveOut={setLeftOut}
      />
    </section>
  );
};
