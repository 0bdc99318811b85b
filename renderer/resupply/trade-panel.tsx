/** The trade of cost against robustness: the same question with none, any one and any two of the flights lost, in one picture. */
import { useCallback, useMemo, useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { ResupplyAnswer } from "../../app/resupply/answer.ts";
import { proofSentence } from "../../app/resupply/answer-words.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { Plot } from "../plot/plot.tsx";
import { type Question, useQuestion } from "../state/use-question.ts";
import { Button } from "../widgets/button.tsx";
import { RunPart } from "../widgets/run-part.tsx";
import { costUnitOf } from "../names/cost-unit.ts";
import { lostName, tradeHeight, tradePicture, type TradeRow } from "./trade-picture.ts";

interface TradePanelProps {
  readonly plan: PlanSnapshot;
  readonly asked: ResupplyAsked;
  readonly isOld: boolean;
}

const levels = [0, 1, 2] as const;

const rowOf = (lost: TradeRow["lost"], { value, partial, isCurrent, failure }: Question<"resupply.plan">): TradeRow => {
  const answer: ResupplyAnswer | null = isCurrent ? value : null;
  const bracket = answer?.bracket ?? partial;
  const holdsAll = answer === null || answer.unheld.length === 0;
  const instead =
    failure !== null
      ? failure.message
      : answer === null
        ? "looking for it"
        : answer.bracket.lower === null || !holdsAll
          ? "not every sortie can be held"
          : "no plan so far";
  return {
    lost,
    best: holdsAll ? (bracket?.upper ?? null) : null,
    lower: holdsAll ? (bracket?.lower ?? null) : null,
    isProved: answer?.isProved ?? false,
    words: instead,
  };
};

const notes = [
  "hatched: proved to be too little; full dots: proved to be the least; open dots: the best found",
  "with arrivals at the instants asked for",
];

export const TradePanel = ({ plan, asked, isOld }: TradePanelProps) => {
  const [isWanted, setWanted] = useState(false);
  const isAsked = isWanted && !isOld;
  const inputOf = (lost: TradeRow["lost"]) =>
    isAsked ? { ...asked, lost, chance: null, planCaseId: plan.planCase.id } : null;
  const title = (lost: TradeRow["lost"]): string => `Resupply, ${lostName(lost)}`;
  const how = { isFixed: true };
  const none = useQuestion("resupply trade 0", "resupply.plan", inputOf(0), { ...how, title: title(0) });
  const one = useQuestion("resupply trade 1", "resupply.plan", inputOf(1), { ...how, title: title(1) });
  const two = useQuestion("resupply trade 2", "resupply.plan", inputOf(2), { ...how, title: title(2) });
  const questions = useMemo(() => [none, one, two] as const, [none, one, two]);
  const rows = useMemo(() => levels.map((lost) => rowOf(lost, questions[lost])), [questions]);
  const costUnit = costUnitOf(plan);
  const isFlights = asked.least !== "cost";
  const costName = costUnit === "" ? "cost" : costUnit;
  const flightsName = asked.mayReplace ? "flights chosen" : "further flights";
  const unit = isFlights ? flightsName : costName;
  const compose = useCallback(
    (size: { readonly width: number; readonly height: number }) => tradePicture(rows, unit, isFlights, size),
    [rows, unit, isFlights],
  );
  return (
    <div className="resupply-sheet">
      <p className="form-advice">
        What it costs that the sorties are held whichever flight is lost: the same question with none, any one and any
        two of the flights to come lost.
      </p>
      {!isAsked && (
        <p>
          <Button
            unable={isOld ? "The plan or the question has changed since: find the plan again." : null}
            onPress={() => setWanted(true)}
          >
            Find all three
          </Button>
        </p>
      )}
      {levels.map((lost) => {
        const { run, failure, again } = questions[lost];
        if (run === null && failure === null) return null;
        return (
          <div key={lost}>
            <RunPart question={{ run, failure, again }} words={`Looking for the plan, ${lostName(lost)}`} />
          </div>
        );
      })}
      {isAsked && (
        <>
          <Plot
            title="What robustness costs"
            notes={notes}
            height={tradeHeight(rows.length)}
            label={null}
            compose={compose}
          />
          <ul className="sentence-list">
            {levels.map((lost) => {
              const { value, isCurrent } = questions[lost];
              return isCurrent && value !== null ? <li key={lost}>{proofSentence(value)}</li> : null;
            })}
          </ul>
        </>
      )}
    </div>
  );
};
