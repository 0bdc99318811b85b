/** How far something under way has come. */
import type { Progress } from "../../app/work/working.ts";

/** A computation under way. */
export interface Run {
  /** On the page's clock (performance.now), ms. */
  readonly startedAt: number;
  /** The last that was told; null: nothing yet. */
  readonly progress: Progress | null;
  readonly stop: () => void;
}
