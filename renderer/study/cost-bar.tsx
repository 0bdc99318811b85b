/** What the study will take, measured before it begins; run, stop and go on; what is absurd is asked about once more. */
import { useState } from "react";
import { spanWords, type StudyCost } from "../../app/study/study-cost.ts";
import type { StudyAsked } from "../../app/study/question.ts";
import { rowsIn } from "../../app/study/study-table.ts";
import { formatNumber } from "../format/number.ts";
import { useQuestion } from "../state/use-question.ts";
import { goOn, type ShownStudy, startStudy } from "../state/use-study.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { Notice } from "../widgets/notice.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { READ_ONLY } from "../widgets/unable.ts";

interface CostBarProps {
  readonly planCaseId: string;
  readonly asked: StudyAsked;
  readonly shown: ShownStudy;
  readonly onRun: () => void;
}

/** After a change of the question, until its time is measured. */
const REST_MS = 500;
/** More than these are run only when it is said that they are meant. */
const MANY_POINTS = 200_000;
const LONG_S = 300;

/** "441 points: about 2 s on the 4 cores of this machine, measured on 64." */
const costWords = ({ points, totalS, measuredPoints, cores }: StudyCost): string =>
  `${formatNumber(points)} ${points === 1 ? "point" : "points"}: ${totalS < 1 ? "" : "about "}${spanWords(totalS)} on the ${formatNumber(cores)} cores of this machine, measured on ${formatNumber(measuredPoints)}.`;

export const CostBar = ({ planCaseId, asked, shown, onRun }: CostBarProps) => {
  const session = useSession();
  const { run, answer, isWhole, isOld, failure } = shown;
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [sure, setSure] = useState<string | null>(null);
  const cost = useQuestion("study cost", "study.cost", { planCaseId, asked }, { restMs: REST_MS });
  const known = cost.isCurrent ? cost.value : null;
  const key = JSON.stringify(asked);
  const isAbsurd = known !== null && (known.points > MANY_POINTS || known.totalS > LONG_S);
  const begin = (): void => {
    if (isAbsurd && sure !== key) return setSure(key);
    setSure(null);
    onRun();
    startStudy(session, asked);
  };
  const keep = async (whole: StudyAsked): Promise<void> => {
    const reply = await session.command("study.keep", { planCaseId, asked: whole });
    if (!reply.ok) return session.fail(reply.failure);
    session.tell("information", `Study ${String(reply.value.number)} is kept in the ledger.`);
  };
  const unable =
    run !== null
      ? "A study is under way; stop it first."
      : (cost.failure?.message ?? (known === null ? "The time that it takes is being measured." : null));
  const done = answer === null ? 0 : rowsIn(answer.rows);
  const isOther = shown.asked !== null && JSON.stringify(shown.asked) !== key;
  return (
    <div className="study-bar">
      <div className="study-start">
        <Button look="primary" unable={unable} onPress={begin}>
          Run study
        </Button>
        {run === null && answer !== null && !isWhole && !isOld && (
          <Button onPress={() => goOn(session, answer)}>
            Go on after point {formatNumber(done)} of {formatNumber(answer.points)}
          </Button>
        )}
        {run === null && shown.asked !== null && isWhole && !isOld && (
          <Button unable={isReadOnly ? READ_ONLY : null} onPress={() => void keep(shown.asked ?? asked)}>
            Keep this study
          </Button>
        )}
        {cost.failure === null && (
          <p className="study-cost figures" aria-live="polite">
            {known === null ? "Measuring what it takes…" : costWords(known)}
          </p>
        )}
      </div>
      {cost.failure !== null && <Notice tone="warning">{cost.failure.message}</Notice>}
      {known !== null && isAbsurd && sure === key && (
        <Notice tone="warning">
          {costWords(known)} Is that meant? Fewer values of an input make fewer points.{" "}
          <Button look="link" onPress={begin}>
            Run it all the same
          </Button>
        </Notice>
      )}
      {run !== null && <RunLine run={run} words="Running the study" />}
      {failure !== null && <Notice tone="warning">{failure.message}</Notice>}
      {run === null && answer !== null && (isOld || isOther) && (
        <output className="study-old-mark">
          {isOld
            ? "The plan has changed since: run the study again before you use what stands here."
            : "What is asked has changed since: what stands here answers the question before."}
        </output>
      )}
    </div>
  );
};
