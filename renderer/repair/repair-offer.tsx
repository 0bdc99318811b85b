/** Where a sortie is shown that is short: the least changes that would supply it, worked out at once, and the way to a whole search. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { useResupplyChoices } from "../state/resupply-choices.ts";
import { useQuestion } from "../state/use-question.ts";
import { findPlan } from "../state/use-resupply.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { FoundRepairs } from "./found-repairs.tsx";
import { repairAskedBy } from "./repair-asked.ts";
import "./repair.css";

const REST_MS = 600;
const MAX_WAYS = 3;

export const RepairOffer = ({ plan }: { plan: PlanSnapshot }) => {
  const session = useSession();
  const choices = useResupplyChoices();
  const { value, isCurrent, run } = useQuestion(
    "repair",
    "resupply.repair",
    { ...repairAskedBy(choices, []), planCaseId: plan.planCase.id },
    { title: "Repair", restMs: REST_MS },
  );
  return (
    <section className="repair" aria-label="Repair">
      <h3 className="repair-heading">What would supply it</h3>
      {run !== null && <RunLine run={run} words="Looking for the least change" />}
      {value !== null && isCurrent && <FoundRepairs plan={plan} answer={value} most={MAX_WAYS} />}
      <p>
        <Button
          look="link"
          onPress={() => {
            findPlan(session, choices);
            session.show("resupply");
          }}
        >
          Find the whole resupply plan
        </Button>
      </p>
    </section>
  );
};
