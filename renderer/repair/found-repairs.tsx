/** A repair in words: what is short, each way to cure it with a button that takes it, or what is in the way. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { cureSentence, unheldSentence } from "../../app/resupply/answer-words.ts";
import type { RepairAnswer, FoundRepair } from "../../app/resupply/repair-answer.ts";
import { goneSentence, repairSentence } from "../../app/resupply/repair-words.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { READ_ONLY } from "../widgets/unable.ts";
import "./repair.css";

interface FoundRepairsProps {
  readonly plan: PlanSnapshot;
  readonly answer: RepairAnswer;
  /** So many ways are shown at most. */
  readonly most: number;
  /** It is about what has not happened: a way is not put into the plan. */
  readonly isSupposed?: boolean;
}

const TakeRepair = ({ plan, way }: { plan: PlanSnapshot; way: FoundRepair }) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const take = async (): Promise<void> => {
    const { added, craft, leftOutIds, moved } = way.taken;
    const reply = await session.command("resupply.takeHere", {
      planCaseId: plan.planCase.id,
      added: [...added],
      craft: [...craft],
      leftOutIds: [...leftOutIds],
      moved: moved.map((row) => ({ ...row })),
    });
    if (!reply.ok) return session.fail(reply.failure);
    const verdict = session.store.get().current?.glance.verdict;
    session.tell(
      "information",
      `Repaired, as one step that can be undone. ${verdict?.word ?? ""}: ${verdict?.sentence ?? ""}`,
    );
  };
  return (
    <Button look="link" unable={isReadOnly ? READ_ONLY : null} onPress={() => void take()}>
      Take into {plan.planCase.name}
    </Button>
  );
};

export const FoundRepairs = ({ plan, answer, most, isSupposed = false }: FoundRepairsProps) => {
  const { standing, ways, unheld, cures, isStopped } = answer;
  const gone = goneSentence(plan, answer);
  if (standing === "holds") return <p>{gone === null ? "" : `${gone} `}Every sortie is held: nothing need change.</p>;
  if (standing === "none")
    return (
      <ul className="sentence-list">
        {gone !== null && <li>{gone}</li>}
        <li>
          {isStopped
            ? "Stopped before a repair was found."
            : "No repair within the limits asked for holds every sortie."}
        </li>
        {unheld.map((row) => (
          <li key={row.sortieId}>{unheldSentence(plan, row, answer)}</li>
        ))}
        {cures.length > 0 && (
          <li>Any one of these would cure it: {cures.map((row) => cureSentence(plan, row)).join(" ")}</li>
        )}
      </ul>
    );
  return (
    <ul className="sentence-list repair-ways">
      {gone !== null && <li>{gone}</li>}
      {ways.slice(0, most).map((way) => {
        const sentence = repairSentence(answer, way);
        return (
          <li key={sentence}>
            <span>{sentence}</span>
            {!isSupposed && <TakeRepair plan={plan} way={way} />}
          </li>
        );
      })}
    </ul>
  );
};
