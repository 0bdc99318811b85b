/** A text made to fit where it stands. */

/** The text cut with "…" to a width; empty if not even a few letters have room. */
export const fitted = (text: string, width: number, measure: (text: string) => number): string => {
  if (measure(text) <= width) return text;
  let low = 0;
  let high = text.length;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (measure(`${text.slice(0, middle).trimEnd()}…`) <= width) low = middle;
    else high = middle - 1;
  }
  return low < 3 ? "" : `${text.slice(0, low).trimEnd()}…`;
};
