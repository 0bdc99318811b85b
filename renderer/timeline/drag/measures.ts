/** What the page notes of a drag, for the benches and tests: the work of each frame, and renderings (there are to be none). */

/** The name under which the work of each frame of a drag is measured. */
export const FRAME_MEASURE = "drag-frame";
/** The name of the mark that a rendering of the chart leaves; each replaces the one before. */
export const RENDER_MARK = "timeline-render";

/** Forgets both: a drag begins. */
export const beginMeasures = (): void => {
  performance.clearMeasures(FRAME_MEASURE);
  performance.clearMarks(RENDER_MARK);
};

export const measureFrame = (begunAt: number): void => {
  performance.measure(FRAME_MEASURE, { start: begunAt, end: performance.now() });
};

export const markRendering = (): void => {
  performance.clearMarks(RENDER_MARK);
  performance.mark(RENDER_MARK);
};
