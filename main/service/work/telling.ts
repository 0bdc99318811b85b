/** Lets progress through ten times a second: more nobody can read. What is known so far has its own turn, for it may cost. */
import type { Progress } from "../../../app/work/working.ts";

const INTERVAL_MS = 100;
/** So many times as long as making it took nothing more is made. */
const MADE_REST = 9;

type Tell = (progress: Progress | (() => Progress)) => void;

/** The first of each kind is told at once; a function is called only when it is told. `now`: a clock in ms. */
export const telling = (tell: (progress: Progress) => void, now: () => number): Tell => {
  const toldAt = { plain: -Infinity, made: -Infinity };
  const restMs = { plain: INTERVAL_MS, made: INTERVAL_MS };
  return (progress) => {
    const kind = typeof progress === "function" ? "made" : "plain";
    const at = now();
    if (at - toldAt[kind] < restMs[kind]) return;
    tell(typeof progress === "function" ? progress() : progress);
    toldAt[kind] = now();
    // What takes long to make is made less often, so that it never takes more than a tenth of the time.
    if (kind === "made") restMs.made = Math.max(INTERVAL_MS, MADE_REST * (toldAt.made - at));
  };
};
