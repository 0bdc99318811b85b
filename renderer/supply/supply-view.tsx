/** The supply check: will each sortie be fuelled, with what margin, and what that hangs on. Statuses at once, slack after. */
import { assumedWords } from "../../app/risk/answer-words.ts";
import { useAction } from "../actions/use-actions.ts";
import { useRisk } from "../state/use-risk.ts";
import { useApp } from "../state/use-session.ts";
import { LookBackLine } from "../widgets/look-back.tsx";
import { Notice } from "../widgets/notice.tsx";
import { Progress } from "../widgets/progress.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { Tabs } from "../widgets/tabs.tsx";
import { VerdictChanceWords } from "../widgets/verdict-chance.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { CuresPanel } from "./cures-panel.tsx";
import { FindingList } from "./finding-list.tsx";
import { FlightTable } from "./flight-table.tsx";
import { LineTable } from "./line-table.tsx";
import { SortieTable } from "./sortie-table.tsx";
import { useSupply } from "../state/use-supply.ts";
import { VerdictLine } from "./verdict-line.tsx";
import "./supply.css";

const COMING = "Working out slack and what each sortie hinges on";

export const SupplyView = () => {
  const current = useApp((state) => state.current);
  const { value, isCurrent, run, failure, again } = useSupply();
  const answer = isCurrent ? value : null;
  const isTrial = useApp((state) => state.trial !== null);
  const risk = useRisk();
  useAction("plan.check", again, { unable: current === null ? "There is no plan case." : null });
  if (current === null) return null;
  const { plan, glance } = current;
  return (
    <ViewSheet>
      <ViewPart>
        <LookBackLine plan={plan} />
        <VerdictLine verdict={glance.verdict} />
        <VerdictChanceWords answer={risk.answer} isCurrent={risk.isCurrent} glance={glance} form="sentence" />
        {failure !== null && <Notice tone="failure">{failure.message}</Notice>}
        {answer === null && failure === null && run === null && !isTrial && <Progress label={COMING} share={null} />}
        {isTrial && (
          <p className="form-advice">Slack and what each sortie hinges on are worked out for the saved plan alone.</p>
        )}
        {run !== null && <RunLine run={run} words={COMING} />}
      </ViewPart>
      <Tabs
        label="Supply check"
        sheets={[
          {
            id: "sorties",
            title: "By sortie",
            content: (
              <div className="supply-sheet">
                <SortieTable plan={plan} glance={glance} answer={answer} risk={risk} />
                <CuresPanel plan={plan} glance={glance} />
                {risk.answer !== null && <p className="form-advice">{assumedWords(risk.answer)}</p>}
                <FindingList plan={plan} findings={glance.findings} />
              </div>
            ),
          },
          {
            id: "lines",
            title: "By propellant",
            content: <LineTable plan={plan} glance={glance} />,
          },
          {
            id: "flights",
            title: "Flights: latest departure",
            content: <FlightTable plan={plan} answer={answer} />,
          },
        ]}
      />
    </ViewSheet>
  );
};
