/** Resupply: the flights that keep the lander flying, what is proved of them, beside the present plan. */
import { useCallback, useState } from "react";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { setResupplyChoices, useResupplyChoices } from "../state/resupply-choices.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { savedCase, type ShownResupply, useResupply } from "../state/use-resupply.ts";
import { useAction } from "../actions/use-actions.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { LookBackLine } from "../widgets/look-back.tsx";
import { Notice } from "../widgets/notice.tsx";
import { type Sheet, Tabs } from "../widgets/tabs.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { AnswerPart } from "./answer-part.tsx";
import { askedWords } from "./asked-words.ts";
import { ChosenChanges } from "./chosen-changes.tsx";
import { ClassTable } from "./class-table.tsx";
import { LeaveByPanel } from "./leave-by-panel.tsx";
import { MishapPanel } from "./mishap-panel.tsx";
import { ProposalPaper } from "./proposal-paper.tsx";
import { PlanFigure } from "./plan-figure.tsx";
import { QuestionPart } from "./question-part.tsx";
import { SearchBar } from "./search-bar.tsx";
import { SumsTable } from "./sums-table.tsx";
import { TakeBar } from "./take-bar.tsx";
import { TradePanel } from "./trade-panel.tsx";
import "./resupply.css";

export const ResupplyView = () => {
  const current = useApp(savedCase);
  return current === null ? null : <Resupply key={current.plan.planCase.id} current={current} />;
};

const resultSheets = (shown: ShownResupply): readonly Sheet[] => {
  const { present, proposed, answer, asked, isOld } = shown;
  if (present === null || answer === null || asked === null) return [];
  const { plan } = present;
  const robustness: Sheet = {
    id: "robustness",
    title: "What robustness costs",
    content: <TradePanel plan={plan} asked={asked} isOld={isOld} />,
  };
  if (proposed === null || answer.proposed === null) return [robustness];
  return [
    {
      id: "proposal",
      title: "Proposal",
      content: (
        <div className={isOld ? "resupply-sheet resupply-old" : "resupply-sheet"}>
          <TakeBar shown={shown} />
          <PlanFigure present={present} proposed={proposed.forecast} changes={answer.changes} />
          <ChosenChanges shown={shown} />
        </div>
      ),
    },
    {
      id: "compared",
      title: "Both plans compared",
      content: (
        <div className={isOld ? "resupply-sheet resupply-old" : "resupply-sheet"}>
          <SumsTable
            plan={plan}
            answer={answer}
            proposed={answer.proposed}
            proposal={proposed.proposal}
            isOld={isOld}
          />
        </div>
      ),
    },
    robustness,
  ];
};

const Resupply = ({ current }: { current: CaseForecast }) => {
  const { plan } = current;
  const path = useApp((state) => state.ledger?.path ?? "");
  const isTrial = useApp((state) => state.trial !== null);
  const choices = useResupplyChoices();
  const shown = useResupply();
  const { asked, answer, failure, isOld, present } = shown;
  const session = useSession();
  const print = (): void => void session.client.host.print().then((reply) => reply.ok || session.fail(reply.failure));
  useAction("resupply.print", print, { unable: answer === null ? "No plan is found yet." : null });
  const [isOpened, setOpened] = useState<boolean | null>(null);
  const [tab, setTab] = useState<string | null>(null);
  const isOpen = isOpened ?? asked === null;
  const onChange = useCallback((change: Partial<ResupplyAsked>) => setResupplyChoices(path, change), [path]);
  const sheets = [
    ...resultSheets(shown),
    { id: "repair", title: "Repair", content: <MishapPanel plan={plan} /> },
    { id: "leave-by", title: "Leave by", content: <LeaveByPanel plan={plan} /> },
  ];
  return (
    <ViewSheet>
      <ViewPart>
        <LookBackLine plan={plan} />
        {isTrial && (
          <Notice tone="information">
            All that stands here is of the saved plan: what is supposed just now is left out of it.
          </Notice>
        )}
        <div className="resupply-asked">
          <p>{askedWords(plan, choices)}</p>
          <Button look="link" aria-expanded={isOpen} onPress={() => setOpened(!isOpen)}>
            {isOpen ? "Fold up the question" : "Change what is asked"}
          </Button>
        </div>
        {isOpen && (
          <>
            <QuestionPart plan={plan} asked={choices} onChange={onChange} />
            <ClassTable plan={plan} asked={choices} onChange={onChange} />
          </>
        )}
        <SearchBar
          choices={choices}
          shown={shown}
          onPrint={print}
          onFind={() => {
            setTab(null);
            setOpened(null);
          }}
        />
        {failure !== null && <Notice tone="warning">{failure.message}</Notice>}
        {answer !== null && asked !== null && present !== null && (
          <AnswerPart plan={present.plan} asked={asked} answer={answer} isOld={isOld} />
        )}
      </ViewPart>
      <ProposalPaper shown={shown} />
      <Tabs
        label="Resupply"
        sheets={sheets}
        shown={sheets.some(({ id }) => id === tab) ? (tab ?? "") : (sheets[0]?.id ?? "")}
        onShow={setTab}
      />
    </ViewSheet>
  );
};
