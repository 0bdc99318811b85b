/** The first line of a view whose plan leaves later records out, with the way back. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { lookBackSentence } from "../../app/ledger/look-back-words.ts";
import { useActions } from "../actions/use-actions.ts";
import { Button } from "./button.tsx";
import { Notice } from "./notice.tsx";

export const LookBackLine = ({ plan }: { plan: PlanSnapshot }) => {
  const actions = useActions();
  const sentence = lookBackSentence(plan);
  if (sentence === null) return null;
  return (
    <Notice tone="warning">
      {sentence}{" "}
      <Button look="quiet" onPress={() => actions.run("plan.followRecords")}>
        Follow the last record
      </Button>
    </Notice>
  );
};
