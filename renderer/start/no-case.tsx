/** A ledger without a plan case: the one thing to do. */
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { beginPlan } from "./first-case.ts";

export const NoCase = () => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  return (
    <article className="inspector">
      <h2>No plan case</h2>
      <p className="form-advice">
        Flights and sorties are planned in a plan case; this ledger has none. The first is called Baseline, and can be
        renamed.
      </p>
      {!isReadOnly && (
        <Button look="primary" onPress={() => void beginPlan(session)}>
          Begin the plan
        </Button>
      )}
    </article>
  );
};
