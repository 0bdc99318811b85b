/** What stands above a computed answer: the computation while it runs, and why there is none, with the way to ask again. */
import type { ReactNode } from "react";
import type { Failure } from "../../app/ground/failure.ts";
import type { Run } from "../state/run.ts";
import { Button } from "./button.tsx";
import { RunLine } from "./run-line.tsx";

interface RunPartProps {
  readonly question: { readonly run: Run | null; readonly failure: Failure | null; readonly again: () => void };
  /** Said until the computation says itself what it does. */
  readonly words: string;
  readonly againWords?: string;
}

export const RunPart = ({
  question: { run, failure, again },
  words,
  againWords = "Look again",
}: RunPartProps): ReactNode => (
  <>
    {run !== null && <RunLine run={run} words={words} />}
    {failure !== null && (
      <p className="form-fault" role="alert">
        {failure.message}{" "}
        <Button look="link" onPress={again}>
          {againWords}
        </Button>
      </p>
    )}
  </>
);
