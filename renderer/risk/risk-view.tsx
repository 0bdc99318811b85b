/** Risk: how likely the plan is to hold, when it ends, and what that hangs on. A quick answer after every change; long runs when asked for. */
import { assumedWords, endWords, riskSentence } from "../../app/risk/answer-words.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useApp } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { LookBackLine } from "../widgets/look-back.tsx";
import { Notice } from "../widgets/notice.tsx";
import { Progress } from "../widgets/progress.tsx";
import { Tabs } from "../widgets/tabs.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { AssumptionTable } from "./assumption-table.tsx";
import { DriverPanel } from "./driver-panel.tsx";
import { EndPanel } from "./end-panel.tsx";
import { KeptRuns } from "./kept-runs.tsx";
import { RunBar } from "./run-bar.tsx";
import { SortieRiskTable } from "./sortie-risk-table.tsx";
import { type ShownRisk, useRisk } from "../state/use-risk.ts";
import "./risk.css";

export const RiskView = () => {
  const current = useApp((state) => state.current);
  return current === null ? null : <Risk current={current} />;
};

const Standing = ({ answer, isCurrent, failure, again }: ShownRisk) => {
  if (answer === null)
    return failure === null ? (
      <Progress label="Running the plan for a first answer" share={null} />
    ) : (
      <Notice tone="warning">
        {failure.message}{" "}
        <Button look="link" onPress={again}>
          Ask again
        </Button>
      </Notice>
    );
  const ended = endWords(answer);
  const assumed = assumedWords(answer);
  return (
    <>
      <p className={isCurrent ? "risk-standing" : "risk-standing risk-old"}>{riskSentence(answer)}</p>
      {ended !== null && <p className="risk-ended">{ended}</p>}
      {assumed !== null && <Notice tone="warning">{assumed}</Notice>}
      {failure !== null && (
        <Notice tone="warning">
          {failure.message}{" "}
          <Button look="link" onPress={again}>
            Ask again
          </Button>
        </Notice>
      )}
    </>
  );
};

const Risk = ({ current }: { current: CaseForecast }) => {
  const risk = useRisk();
  const { answer, isCurrent } = risk;
  const { plan, view } = current;
  const old = isCurrent ? "" : "risk-old";
  return (
    <ViewSheet>
      <ViewPart>
        <LookBackLine plan={plan} />
        <Standing {...risk} />
        <RunBar {...risk} />
      </ViewPart>
      <Tabs
        label="Risk"
        sheets={[
          {
            id: "sorties",
            title: "By sortie",
            content:
              answer === null ? null : (
                <div className={old}>
                  <SortieRiskTable plan={plan} answer={answer} />
                </div>
              ),
          },
          {
            id: "end",
            title: "End of the campaign",
            content:
              answer === null ? null : (
                <div className={old}>
                  <EndPanel plan={plan} answer={answer} />
                </div>
              ),
          },
          { id: "drivers", title: "What it hangs on", content: <DriverPanel current={current} /> },
          {
            id: "assumptions",
            title: "Assumptions",
            content: <AssumptionTable plan={plan} readings={view.readings} />,
          },
          { id: "kept", title: "Kept runs", content: <KeptRuns /> },
        ]}
      />
    </ViewSheet>
  );
};
