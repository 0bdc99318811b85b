/** Measured, predicted and fitted level of a tank; what is fitted, on which readings, and the way into the plan. */
import { memo, useMemo, useState } from "react";
import type { Input } from "../../app/contract/contract.ts";
import { ratePieces } from "../../app/storage/loss-rate.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { usualPart } from "../../app/losses/fit/usual-part.ts";
import { rateNow } from "../state/tank-now.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { type FittedPart, PartField } from "../fit/part-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { FitAnswer } from "./fit-answer.tsx";
import type { MonthsChoice } from "./months-choice.ts";

type Span = Pick<MonthsChoice, "fromAt" | "untilAt">;

interface FitPanelProps {
  readonly current: CaseForecast;
  readonly tank: Tank;
  /** Of the months shown. */
  readonly span: Span;
}

type RateChanges = Input<"losses.fit">["rateChanges"];

const changeChoices: readonly { readonly id: RateChanges; readonly name: string; readonly note: string }[] = [
  { id: "apart", name: "kept apart", note: "the rate up to the last reading; nothing is assumed of the others" },
  { id: "as one", name: "one rate to all", note: "as if nothing had changed" },
];

/** Which readings: those of the months shown, until the planner says otherwise for these months. */
const useReadingSpan = (shown: Span) => {
  const [own, setOwn] = useState<{ readonly of: Span; readonly span: Span } | null>(null);
  const isOwn = own !== null && own.of.fromAt === shown.fromAt && own.of.untilAt === shown.untilAt;
  const { fromAt, untilAt } = isOwn ? own.span : shown;
  const set = (change: Partial<Span>): void => setOwn({ of: shown, span: { fromAt, untilAt, ...change } });
  return { fromAt, untilAt, set };
};

export const FitPanel = memo(function FitPanel({ current, tank, span }: FitPanelProps) {
  const { plan, view } = current;
  const [fitted, setFitted] = useState<FittedPart>(() => usualPart(rateNow(plan, tank.id)));
  const [rateChanges, setRateChanges] = useState<RateChanges>("apart");
  const { fromAt, untilAt, set } = useReadingSpan(span);
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
  return (
    <section className="fit-panel" aria-label={`Measured loss of ${tank.name}`}>
      <h3>Measured, predicted and fitted level of {tank.name}</h3>
      <div className="loss-fields">
        <PartField value={fitted} onCommit={setFitted} />
        {hasChanges && (
          <ChoiceField label="Changes of rate" value={rateChanges} choices={changeChoices} onCommit={setRateChanges} />
        )}
        <InstantField label="Readings from" value={fromAt} latestAt={untilAt} onCommit={(at) => set({ fromAt: at })} />
        <InstantField
          label="Readings until"
          value={untilAt}
          earliestAt={fromAt}
          onCommit={(at) => set({ untilAt: at })}
        />
      </div>
      <FitAnswer plan={plan} tank={tank} readings={readings} asked={asked} onLeaveOut={setLeftOut} />
    </section>
  );
});
