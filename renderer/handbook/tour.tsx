/** The first tour: offered once, at the first start; five steps that can be left at any time; again from the Help menu. */
import { useEffect, useState } from "react";
import { NO_LEDGER } from "../actions/reasons.ts";
import { useAction, useActions } from "../actions/use-actions.ts";
import { rememberTourOffered, wasTourOffered } from "../state/remembered.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { tourSteps } from "./tour-steps.ts";
import "./tour.css";

/** In the status line, where it covers nothing; gone with the first answer, and with the next start. */
export const TourOffer = () => {
  const actions = useActions();
  const isReady = useApp((state) => state.phase === "ready");
  const [isOffered, setOffered] = useState(() => !wasTourOffered());
  useEffect(() => {
    if (isReady) rememberTourOffered();
  }, [isReady]);
  if (!isReady || !isOffered) return null;
  const answer = (isWanted: boolean): void => {
    setOffered(false);
    if (isWanted) actions.run("help.tour");
  };
  return (
    <>
      <button
        type="button"
        className="status-button tour-offer"
        title="Five steps through the views; it can be left at any time"
        onClick={() => answer(true)}
      >
        First tour
      </button>
      <button
        type="button"
        className="status-button tour-offer"
        aria-label="No first tour"
        title="No first tour"
        onClick={() => answer(false)}
      >
        ×
      </button>
    </>
  );
};

export const Tour = () => {
  const session = useSession();
  const isReady = useApp((state) => state.phase === "ready");
  const [index, setIndex] = useState<number | null>(null);
  const goTo = (next: number): void => {
    const step = tourSteps[next];
    setIndex(step === undefined ? null : next);
    if (step === undefined) return;
    session.show(step.view);
    session.announce(`Step ${next + 1} of ${tourSteps.length}: ${step.title}. ${step.words}`);
  };
  useAction("help.tour", () => goTo(0), { unable: isReady ? null : NO_LEDGER });
  const step = index === null ? undefined : tourSteps[index];
  if (index === null || step === undefined) return null;
  const isLast = index === tourSteps.length - 1;
  return (
    <section className="tour" aria-label="First tour">
      <p className="tour-count">
        Step {index + 1} of {tourSteps.length}
      </p>
      <h2>{step.title}</h2>
      <p>{step.words}</p>
      <p className="tour-foot">
        {!isLast && <Button onPress={() => setIndex(null)}>Leave the tour</Button>}
        {index > 0 && <Button onPress={() => goTo(index - 1)}>Back</Button>}
        <Button look="primary" onPress={() => goTo(index + 1)}>
          {isLast ? "End the tour" : "Next step"}
        </Button>
      </p>
    </section>
  );
};
