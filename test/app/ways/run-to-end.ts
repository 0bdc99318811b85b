/** Runs a search to its end, without a pause. */
export const runToEnd = <T>(search: Generator<void, T>): T => {
  for (;;) {
    const step = search.next();
    if (step.done === true) return step.value;
  }
};
