/** A computation under way: what is being done, the line that fills, how fast and how long still, what is known so far, stop. */
import { type ReactNode, useEffect, useState } from "react";
import type { Run } from "../state/run.ts";
import { runWords } from "./run-words.ts";
import { Progress } from "./progress.tsx";

interface RunLineProps {
  readonly run: Run;
  /** Said until the computation says itself what it does. */
  readonly words: string;
  /** What is known so far, in a few words. */
  readonly children?: ReactNode;
}

const TICK_MS = 500;

/** The page's clock, twice a second, while something is shown by it. */
const useNow = (): number => {
  const [now, setNow] = useState(() => performance.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(performance.now()), TICK_MS);
    return () => clearInterval(timer);
  }, []);
  return now;
};

export const RunLine = ({ run, words, children }: RunLineProps) => {
  const now = useNow();
  const { progress } = run;
  return (
    <div className="run-line">
      <Progress
        label={progress?.words ?? words}
        share={progress?.share ?? null}
        figures={runWords(run, now)}
        onStop={run.stop}
      />
      {children}
    </div>
  );
};
