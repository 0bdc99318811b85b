/** What runs, in the status line: each with how far it has come, how fast it is and how long it still takes, and a stop. */
import { useEffect, useState } from "react";
import type { RunningWork } from "../state/app-state.ts";
import { runWords } from "../widgets/run-words.ts";

/** What is done sooner is not worth a flicker. */
const WORTH_TELLING_MS = 300;

/** The page's clock, so often that a rate can be followed. */
const useNow = (): number => {
  const [now, setNow] = useState(() => performance.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(performance.now()), WORTH_TELLING_MS);
    return () => clearInterval(timer);
  }, []);
  return now;
};

export const WorkList = ({ work }: { work: readonly RunningWork[] }) => {
  const now = useNow();
  const shown = work.filter(({ startedAt }) => now - startedAt > WORTH_TELLING_MS);
  return (
    <ul className="status-work" aria-label="What runs">
      {shown.map((each) => (
        <li key={each.jobId} className="status-job">
          <span className="status-title">{each.title}</span>
          <span className="status-title figures">{runWords(each, now)}</span>
          <button type="button" className="status-button" aria-label={`Stop: ${each.title}`} onClick={each.stop}>
            Stop
          </button>
        </li>
      ))}
    </ul>
  );
};
