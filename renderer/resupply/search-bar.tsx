/** Find plan and stop; while it runs, the best plan so far and what is ruled out. */
import { bracketWords } from "../../app/resupply/bracket-words.ts";
import type { ResupplyAsked } from "../../app/resupply/asked.ts";
import { findPlan, type ShownResupply } from "../state/use-resupply.ts";
import { useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { RunLine } from "../widgets/run-line.tsx";

interface SearchBarProps {
  readonly choices: ResupplyAsked;
  readonly shown: ShownResupply;
  readonly onFind: () => void;
  readonly onPrint: () => void;
}

export const SearchBar = ({ choices, shown, onFind, onPrint }: SearchBarProps) => {
  const { run, bracket, asked, answer, isOld } = shown;
  const session = useSession();
  const measure = asked?.least === "cost" ? "cost" : "flights";
  const isOther = asked !== null && JSON.stringify(asked) !== JSON.stringify(choices);
  return (
    <div className="resupply-search">
      <div className="resupply-start">
        <Button
          look="primary"
          unable={run === null ? null : "A search is under way; stop it first."}
          onPress={() => {
            findPlan(session, choices);
            onFind();
          }}
        >
          Find plan
        </Button>
        {run === null && answer !== null && <Button onPress={onPrint}>Print…</Button>}
        {run === null && answer !== null && (isOld || isOther) && (
          <output className="resupply-old-mark">
            {isOld
              ? "The plan has changed since: find it again before you use what stands here."
              : "What is asked has changed since: what stands here answers the question before."}
          </output>
        )}
      </div>
      {run !== null && (
        <RunLine run={run} words="Looking for the plan">
          <p className="resupply-bracket figures" aria-live="polite">
            {bracket === null ? "" : bracketWords(measure, bracket)}
          </p>
        </RunLine>
      )}
    </div>
  );
};
