/** Nothing is selected: what an empty ledger needs first, or what there is to select. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { countWords } from "../names/entity-words.ts";
import { SetupGuide } from "../start/setup-guide.tsx";
import { isSetUp } from "../start/setup-steps.ts";

export const NothingSelected = ({ plan }: { plan: PlanSnapshot }) => (
  <article className="inspector">
    {isSetUp(plan) ? (
      <>
        <p className="inspector-kind">Plan case</p>
        <h2>{plan.planCase.name}</h2>
        <p className="form-advice">
          {countWords("flight", plan.flights.length)} and {countWords("sortie", plan.sorties.length)}. Select one to see
          what it means and to change it.
        </p>
      </>
    ) : (
      <SetupGuide plan={plan} />
    )}
  </article>
);
