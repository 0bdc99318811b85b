/** How far a computation has come, in figures: what is done, how fast, how long still. */
import type { Run } from "../state/run.ts";
import { formatNumber } from "../format/number.ts";

/** Before this, a rate or a time left is a guess. */
const SETTLED_MS = 400;
const SECOND_MS = 1000;
const MINUTE_S = 60;

const leftWords = (seconds: number): string => {
  if (seconds < 1) return "about a second left";
  if (seconds < 2 * MINUTE_S) return `${formatNumber(Math.ceil(seconds))} s left`;
  return `${formatNumber(Math.ceil(seconds / MINUTE_S))} min left`;
};

/** Two digits: a rate that twitches in the third is not read. */
const twoDigits = (value: number): number => (value === 0 ? 0 : Number(value.toPrecision(2)));

/** "12 800 runs · 41 000 runs/s · 3 s left"; empty where nothing can be said. `now`: on the page's clock, ms. */
export const runWords = ({ startedAt, progress }: Run, now: number): string => {
  if (progress === null) return "";
  const { share, done } = progress;
  const elapsed = now - startedAt;
  const parts: string[] = [];
  if (share !== null) parts.push(`${formatNumber(Math.floor(share * 100))} %`);
  if (done !== undefined) {
    parts.push(`${formatNumber(done.count)} ${done.unit}`);
    if (elapsed > SETTLED_MS && done.count > 0)
      parts.push(`${formatNumber(twoDigits((done.count / elapsed) * SECOND_MS))} ${done.unit}/s`);
  }
  if (share !== null && share > 0 && share < 1 && elapsed > SETTLED_MS)
    parts.push(leftWords((elapsed * (1 - share)) / share / SECOND_MS));
  return parts.join(" · ");
};
