/** What else a planner should know of the plan: sentences, each with a way to the thing. */
import type { PlanSnapshot } from "../../app/forecast/plan.ts";
import { findingSentence } from "../../app/supply/finding-sentence.ts";
import type { PlanFinding } from "../../app/supply/report.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { findingSubject } from "./finding-subject.ts";

export const FindingList = ({ plan, findings }: { plan: PlanSnapshot; findings: readonly PlanFinding[] }) => {
  const session = useSession();
  return (
    <section aria-label="Findings">
      <h2 className="supply-heading">Also worth knowing</h2>
      {findings.length === 0 ? (
        <p className="form-advice">Nothing: no overflow, no port conflict, no tank run empty, no reserve crossed.</p>
      ) : (
        <ul className="sentence-list">
          {findings.map((finding) => {
            const sentence = findingSentence(plan, finding);
            return (
              <li key={sentence}>
                <Button look="link" onPress={() => session.select(findingSubject(plan, finding))}>
                  {sentence}
                </Button>
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
};
