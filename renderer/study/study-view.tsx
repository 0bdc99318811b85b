/** Studies: the plan case asked at many points; what is asked, what it takes, and the results while they come. */
import { type ReactNode, useMemo, useState } from "react";
import { columnWords } from "../../app/study/column-words.ts";
import type { ListedStudy } from "../../app/study/kept-study.ts";
import { inputId, inputOffers } from "../../app/study/offers.ts";
import { outcomeColumns } from "../../app/study/slices.ts";
import type { StudyAsked } from "../../app/study/question.ts";
import { rowsIn } from "../../app/study/study-table.ts";
import { formatInstant } from "../format/instant.ts";
import type { CaseForecast } from "../state/case-forecast.ts";
import { setStudyChoices, useStudyChoices } from "../state/study-choices.ts";
import { savedCase } from "../state/use-resupply.ts";
import { useApp } from "../state/use-session.ts";
import { useQuestion } from "../state/use-question.ts";
import { useStudy } from "../state/use-study.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Notice } from "../widgets/notice.tsx";
import { type Sheet, Tabs } from "../widgets/tabs.tsx";
import { ViewPart, ViewSheet } from "../widgets/view-sheet.tsx";
import { CostBar } from "./cost-bar.tsx";
import { CurvePanel } from "./curve-panel.tsx";
import { EdgePanel } from "./edge-panel.tsx";
import { firstQuestion } from "./first-question.ts";
import { KeptStudies } from "./kept-studies.tsx";
import { MapPanel } from "./map-panel.tsx";
import { PointPart } from "./point-part.tsx";
import { PointTable } from "./point-table.tsx";
import { quantityWords } from "./quantity-words.ts";
import { QuestionPart } from "./question-part.tsx";
import { RankPanel } from "./rank-panel.tsx";
import "./study.css";

export const StudyView = () => {
  const saved = useApp(savedCase);
  return saved === null ? null : <Study saved={saved} />;
};

const NOT_YET = "Nothing has been run yet: say what is varied, and press Run study.";

const Study = ({ saved }: { saved: CaseForecast }) => {
  const { plan } = saved;
  const path = useApp((state) => state.ledger?.path ?? "");
  const isTrial = useApp((state) => state.trial !== null);
  const offers = useMemo(() => inputOffers(plan), [plan]);
  const first = useMemo(() => firstQuestion(offers), [offers]);
  const asked = useStudyChoices() ?? first;
  const shown = useStudy();
  const [kept, setKept] = useState<ListedStudy | null>(null);
  const looked = useQuestion("study looked at", "study.kept", kept === null ? null : { number: kept.number }, {
    isFixed: true,
  });
  const answer = kept === null ? shown.answer : looked.isCurrent ? looked.value : null;
  const isOld = kept === null ? shown.isOld : kept.isStale;
  const [isOpened, setOpened] = useState<boolean | null>(null);
  const [wanted, setWanted] = useState<string | null>(null);
  const [chosen, setChosen] = useState<number | null>(null);
  const [tab, setTab] = useState<string | null>(null);
  if (asked === null)
    return (
      <ViewSheet>
        <ViewPart>
          <p>There is nothing in {plan.planCase.name} yet that could be varied: it needs sorties ahead, and tanks.</p>
        </ViewPart>
      </ViewSheet>
    );
  const look = (study: ListedStudy | null): void => {
    setKept(study);
    setChosen(null);
    if (study !== null) setTab(null);
  };
  const isOpen = isOpened ?? answer === null;
  const outcomes = answer === null ? [] : outcomeColumns(answer);
  const usual = outcomes.find((column) =>
    ["supplied", "all fly when planned", "flights"].includes(answer?.columns[column]?.name ?? ""),
  );
  const column = outcomes.find((one) => answer?.columns[one]?.name === wanted) ?? usual ?? outcomes[0] ?? 0;
  const row = answer === null || chosen === null || chosen >= rowsIn(answer.rows) ? null : chosen;
  const names = asked.inputs.map((input) => {
    const offer = offers.find(({ id }) => id === inputId(input));
    const subject = offer === undefined || offer.subject === "" ? "" : ` of ${offer.subject}`;
    return `${quantityWords[input.quantity]}${subject}`;
  });
  const old = isOld ? "study-old" : "";
  const result = (content: ReactNode) =>
    answer === null ? <p>{NOT_YET}</p> : <div className={`study-panel ${old}`}>{content}</div>;
  const point = answer !== null && <PointPart answer={answer} row={row} isOld={isOld} />;
  const isMap = answer === null ? asked.inputs.length > 1 : answer.inputs.length > 1;
  const sheets: readonly Sheet[] = [
    ...(isMap
      ? [
          {
            id: "map",
            title: "Map",
            content: result(
              answer !== null && (
                <>
                  <MapPanel answer={answer} column={column} chosen={row} onChoose={setChosen} />
                  {point}
                </>
              ),
            ),
          },
        ]
      : []),
    {
      id: "curve",
      title: "Curve",
      content: result(
        answer !== null && (
          <>
            <CurvePanel answer={answer} column={column} chosen={row} onChoose={setChosen} />
            {point}
          </>
        ),
      ),
    },
    {
      id: "table",
      title: "Table",
      content: result(
        answer !== null && (
          <>
            {point}
            <PointTable answer={answer} chosen={row} onChoose={setChosen} />
          </>
        ),
      ),
    },
    { id: "rank", title: "What matters", content: <RankPanel planCaseId={plan.planCase.id} asked={asked} /> },
    {
      id: "edge",
      title: "How far it holds",
      content: <EdgePanel planCaseId={plan.planCase.id} asked={asked} names={names} />,
    },
    {
      id: "kept",
      title: "Kept studies",
      content: <KeptStudies onLook={look} onDelete={(number) => kept?.number === number && look(null)} />,
    },
  ];
  const shownTab = sheets.some(({ id }) => id === tab) ? (tab ?? "") : (sheets[0]?.id ?? "");
  const change = (next: StudyAsked): void => setStudyChoices(path, next);
  return (
    <ViewSheet>
      <ViewPart>
        {isTrial && (
          <Notice tone="information">
            All that stands here is of the saved plan: what is supposed just now is left out of it.
          </Notice>
        )}
        <div className="study-asked">
          <p>
            {plan.planCase.name} over {names.join(", ")}
          </p>
          <Button look="link" aria-expanded={isOpen} onPress={() => setOpened(!isOpen)}>
            {isOpen ? "Fold up the question" : "Change what is asked"}
          </Button>
        </div>
        {isOpen && <QuestionPart plan={plan} offers={offers} asked={asked} onChange={change} />}
        <CostBar planCaseId={plan.planCase.id} asked={asked} shown={shown} onRun={() => look(null)} />
        {kept !== null && (
          <Notice tone={kept.isStale ? "warning" : "information"}>
            What stands below is study {kept.number}, kept {formatInstant(kept.keptAt)} of {kept.caseName}
            {kept.isStale ? "; the plan, the records or the program have changed since." : "."}{" "}
            <Button look="link" onPress={() => look(null)}>
              Back to the study on screen
            </Button>
          </Notice>
        )}
        {looked.failure !== null && kept !== null && <Notice tone="warning">{looked.failure.message}</Notice>}
      </ViewPart>
      {answer !== null && ["map", "curve"].includes(shownTab) && outcomes.length > 1 && (
        <div className="study-choices study-outcome">
          <ChoiceField
            label="Shown"
            value={String(column)}
            choices={outcomes.map((one) => ({ id: String(one), name: columnWords(answer, one) }))}
            onCommit={(id) => setWanted(answer.columns[Number(id)]?.name ?? null)}
          />
        </div>
      )}
      <Tabs label="Study" sheets={sheets} shown={shownTab} onShow={setTab} />
    </ViewSheet>
  );
};
