/** What the page notes of its answers for the benches: the work of showing an answer, drawing included. */

const REDRAW_MEASURE = "losses-redraw";

/** The name under which the last showing of an operation's answer is measured; each replaces the one before. */
export const redrawMeasure = (operation: string): string => `${REDRAW_MEASURE} ${operation}`;

/** Runs `show`, which renders and draws at once, and notes how long it took. */
export const measureRedraw = (operation: string, show: () => void): void => {
  const name = redrawMeasure(operation);
  const start = performance.now();
  show();
  performance.clearMeasures(name);
  performance.measure(name, { start, end: performance.now() });
};
