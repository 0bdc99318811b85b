/** Above every view while something is supposed: what it is, that nothing of it is saved, and the two ways out. */
import { useState } from "react";
import { supposedWords } from "../../app/supply/supposed.ts";
import { consequences } from "../timeline/words/consequence.ts";
import { endTrial } from "../state/trial.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { keepTrial } from "./keep-trial.ts";
import "./what-if.css";

export const TrialBar = () => {
  const session = useSession();
  const trial = useApp((state) => state.trial);
  const current = useApp((state) => state.current);
  const unit = useApp((state) => state.massUnit);
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [isKeeping, setKeeping] = useState(false);
  if (trial === null || current === null) return null;
  const keep = (): void => {
    setKeeping(true);
    void keepTrial(session).finally(() => setKeeping(false));
  };
  return (
    <section className="trial-bar" aria-label="What is supposed">
      <p aria-live="polite">
        <strong>What if: {supposedWords(trial.base.plan, trial.supposed)}.</strong>{" "}
        {consequences(current.plan, trial.base.glance, current.glance, unit)}{" "}
        <span className="trial-note">Nothing is saved; risk and reports are of the saved plan.</span>
      </p>
      {!isReadOnly && (
        <Button unable={isKeeping ? "It is being kept." : null} onPress={keep}>
          Keep as a case
        </Button>
      )}
      <Button look="quiet" onPress={() => endTrial(session.store)}>
        End what-if
      </Button>
    </section>
  );
};
