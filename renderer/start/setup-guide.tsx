/** The guide of a new ledger: steps, each with its button, ticked as they are done, until the supply check answers. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { EntityKind } from "../../app/entity/entities.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { setupSteps } from "./setup-steps.ts";
import "./setup-guide.css";

interface SetupGuideProps {
  readonly plan: PlanSnapshot;
  readonly onAdd: (kind: EntityKind) => void;
}

export const SetupGuide = ({ plan, onAdd }: SetupGuideProps) => {
  const session = useSession();
  const steps = setupSteps(plan);
  const next = steps.find((step) => !step.isDone);
  return (
    <>
      <h2>What this ledger needs</h2>
      <p className="form-advice">In this order; each can be changed later, and undone.</p>
      <ol className="setup-steps">
        {steps.map((step) => (
          <li key={step.kind ?? "look"} data-done={step.isDone || undefined}>
            <span className="setup-mark" aria-hidden="true">
              {step.isDone ? "✓" : ""}
            </span>
            <span className="setup-words">
              {step.words}
              {step.isDone && <span className="unseen"> (done)</span>}
            </span>
            <Button
              look={step === next ? "primary" : "quiet"}
              onPress={() => (step.kind === null ? session.show("supply") : onAdd(step.kind))}
              aria-label={step.kind === null ? "Show the supply check" : `Add: ${step.words}`}
            >
              {step.kind === null ? "Show" : "Add…"}
            </Button>
          </li>
        ))}
      </ol>
    </>
  );
};
