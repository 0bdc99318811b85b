/** Lets progress through ten times a second: more nobody can read. What is known so far has its own turn, for it may cost. */
import type { Progress } from "../../../app/work/working.ts";

const INTERVAL_MS = 100;

type Report = (progress: Progress | (() => Progress)) => void;

/** The first of each kind is told at once; a function is called only when it is told. `now`: a clock in ms. */
export const telling = (tell: (progress: Progress) => void, now: () => number): Report => {
  const toldAt = { plain: -Infinity, made: -Infinity };
  return (progress) => {
    const kind = typeof progress === "function" ? "made" : "plain";
    const at = now();
    if (at - toldAt[kind] < INTERVAL_MS) return;
    tell(typeof progress === "function" ? progress() : progress);
    toldAt[kind] = now();
  };
};
