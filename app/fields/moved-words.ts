/** "departs 2031-02-24 instead of 2031-02-20, 4 days later". */
import { formatInstant, formatSpan } from "../format/instant.ts";

/** `before` and `after`: ms UTC, not the same. */
export const movedWords = (what: string, before: number, after: number): string => {
  const span = formatSpan(Math.abs(after - before));
  return `${what} ${formatInstant(after)} instead of ${formatInstant(before)}, ${span} ${after > before ? "later" : "earlier"}`;
};
