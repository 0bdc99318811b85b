/** The guide of an empty ledger: ten steps, each with its button, struck off as they are done. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { EntityKind } from "../../app/entity/entities.ts";
import { AddDialog } from "../forms/add-dialog.tsx";
import { Button } from "../widgets/button.tsx";
import { setupSteps } from "./setup-steps.ts";
import "./setup-guide.css";

export const SetupGuide = ({ plan }: { plan: PlanSnapshot }) => {
  const [adding, setAdding] = useState<EntityKind | null>(null);
  const steps = setupSteps(plan);
  const next = steps.find((step) => !step.isDone);
  return (
    <>
      <h2>What this ledger needs</h2>
      <p className="form-advice">In this order; each can be changed later, and undone.</p>
      <ol className="setup-steps">
        {steps.map((step) => (
          <li key={step.kind} data-done={step.isDone || undefined}>
            <span className="setup-mark" aria-hidden="true">
              {step.isDone ? "✓" : ""}
            </span>
            <span className="setup-words">
              {step.words}
              {step.isDone && <span className="unseen"> (done)</span>}
            </span>
            <Button
              look={step === next ? "primary" : "quiet"}
              onPress={() => setAdding(step.kind)}
              aria-label={`Add: ${step.words}`}
            >
              Add…
            </Button>
          </li>
        ))}
      </ol>
      {adding !== null && <AddDialog key={adding} kind={adding} isSelecting={false} onClose={() => setAdding(null)} />}
    </>
  );
};
