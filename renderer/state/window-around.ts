/** Which stretch of time the timeline shows once a thing is gone to. */
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { TimeWindow } from "./app-state.ts";

/** Room left and right of what is brought into sight. */
const MARGIN_MS = 10 * DAY_MS;

/** The same length of time around the thing, unless it is in sight already; null: the whole campaign is shown. */
export const windowAround = (
  shown: TimeWindow | null,
  { fromAt, untilAt }: { readonly fromAt: number; readonly untilAt: number },
): TimeWindow | null => {
  if (shown === null || (fromAt >= shown.fromAt && untilAt <= shown.untilAt)) return shown;
  const length = Math.max(shown.untilAt - shown.fromAt, untilAt - fromAt + 2 * MARGIN_MS);
  const middle = (fromAt + untilAt) / 2;
  return { fromAt: middle - length / 2, untilAt: middle + length / 2 };
};
