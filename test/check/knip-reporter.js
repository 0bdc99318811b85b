/** Makes knip say how many files it looked at, so that a run over nothing is seen. */

/** @param {{ counters: { processed: number } }} run */
const sayCount = (run) => console.log(`looked at ${run.counters.processed} files`);

export default sayCount;
