/** Nothing is selected: what a new ledger needs first, or what there is to select. */
import { useState } from "react";
import type { EntityKind } from "../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { AddDialog } from "../forms/add-dialog.tsx";
import { countWords } from "../names/entity-words.ts";
import { SetupGuide } from "../start/setup-guide.tsx";
import { isSetUp } from "../start/setup-steps.ts";

export const NothingSelected = ({ plan }: { plan: PlanSnapshot }) => {
  // Held here: the guide goes with the first true answer, and what is being added then is not done yet.
  const [adding, setAdding] = useState<EntityKind | null>(null);
  return (
    <article className="inspector">
      {isSetUp(plan) ? (
        <>
          <p className="inspector-kind">Plan case</p>
          <h2>{plan.planCase.name}</h2>
          <p className="form-advice">
            {countWords("flight", plan.flights.length)} and {countWords("sortie", plan.sorties.length)}. Select one to
            see what it means and to change it.
          </p>
        </>
      ) : (
        <SetupGuide plan={plan} onAdd={setAdding} />
      )}
      {adding !== null && <AddDialog key={adding} kind={adding} isSelecting={false} onClose={() => setAdding(null)} />}
    </article>
  );
};
