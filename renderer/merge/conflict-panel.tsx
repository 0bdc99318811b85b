/** One conflict at a time: both sides, their masses, the choice, and the way to the next. */
import type { Choice } from "../../app/merge/merge-choices.ts";
import type { ConflictView } from "../../app/merge/merge-view.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceList } from "./choice-list.tsx";
import { MassComparison } from "./mass-comparison.tsx";
import { SideCard } from "./side-card.tsx";

interface ConflictPanelProps {
  readonly conflict: ConflictView;
  readonly index: number;
  readonly count: number;
  readonly openCount: number;
  readonly choice: Choice | null;
  readonly onChoose: (choice: Choice) => void;
  readonly onStep: (by: number) => void;
  readonly onKeepRest: () => void;
}

export const ConflictPanel = (props: ConflictPanelProps) => {
  const { conflict, index, count, openCount, choice, onStep } = props;
  return (
    <section className="merge-conflict" aria-labelledby="merge-conflict-title">
      <header className="merge-conflict-head">
        <h2 id="merge-conflict-title" aria-live="polite">
          Conflict {index + 1} of {count}: {conflict.about}
        </h2>
        <div className="merge-steps">
          <Button unable={index === 0 ? "It is the first conflict." : null} onPress={() => onStep(-1)}>
            Previous
          </Button>
          <Button
            look={choice === null ? "plain" : "primary"}
            unable={choice === null && index + 1 >= count ? "Choose one of the two first." : null}
            onPress={() => onStep(1)}
          >
            {index + 1 < count ? "Next" : "To the summary"}
          </Button>
        </div>
      </header>
      <p className="form-advice">{conflict.words}</p>
      <div className="merge-sides">
        <SideCard title="Ours" records={conflict.ours} />
        <SideCard title="Theirs" records={conflict.theirs} />
      </div>
      <MassComparison masses={conflict.masses} />
      <ChoiceList value={choice} bothWords={conflict.bothWords} onChoose={props.onChoose} />
      {openCount > 1 && (
        <p className="form-advice">
          {openCount} are not decided yet.{" "}
          <Button look="link" onPress={props.onKeepRest}>
            Keep ours in all of them
          </Button>
        </p>
      )}
    </section>
  );
};
