/** What was found of the plan, by what it does to the verdict: sentences, each with a way to the thing. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { findingSentence } from "../../app/supply/finding-sentence.ts";
import type { PlanFinding } from "../../app/supply/answer.ts";
import { type Weight, weightOf } from "../../app/supply/weight.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { Sentence } from "../widgets/sentence.tsx";
import { findingSubject } from "./finding-subject.ts";

const headings: Readonly<Record<Weight, string>> = {
  breaks: "Breaks the plan",
  conditions: "Warnings",
  note: "Notes",
};
const order: readonly Weight[] = ["breaks", "conditions", "note"];

export const FindingList = ({ plan, findings }: { plan: PlanSnapshot; findings: readonly PlanFinding[] }) => {
  const session = useSession();
  const byWeight = Map.groupBy(findings, weightOf);
  return (
    <section aria-label="Findings">
      {findings.length === 0 && (
        <>
          <h2 className="supply-heading">Warnings</h2>
          <p className="form-advice">
            None: no overflow, no port conflict, no hull in two places, no tank run empty, no reserve crossed.
          </p>
        </>
      )}
      {order
        .filter((weight) => byWeight.has(weight))
        .map((weight) => (
          <div key={weight}>
            <h2 className="supply-heading">{headings[weight]}</h2>
            <ul className="sentence-list">
              {(byWeight.get(weight) ?? []).map((finding) => {
                const sentence = findingSentence(plan, finding);
                return (
                  <li key={sentence}>
                    <Button look="link" onPress={() => session.select(findingSubject(plan, finding))}>
                      <Sentence words={sentence} />
                    </Button>
                  </li>
                );
              })}
            </ul>
          </div>
        ))}
    </section>
  );
};
