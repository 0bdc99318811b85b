/** The bands of the risk for the level charts of the timeline. */
import { useMemo } from "react";
import { formatNumber, formatPercent } from "../../format/number.ts";
import { useApp } from "../../state/use-session.ts";
import { useRisk } from "../../state/use-risk.ts";
import type { ModelRisk } from "./timeline-model.ts";

/** null: there is none, or it is not wanted. */
export const useTimelineRisk = (): ModelRisk | null => {
  // Bands of the saved plan say nothing of one that is only supposed.
  const isWanted = useApp((state) => state.isWithBands && state.trial === null);
  const { answer, isCurrent } = useRisk();
  return useMemo(() => {
    if (!isWanted || answer === null || answer.bands.length === 0) return null;
    const { count, assumed } = answer.inputs;
    const note = `bands: 5 to ${formatPercent(95, 0)} and 10 to ${formatPercent(90, 0)} of ${formatNumber(answer.bandReplications)} runs, dashes: their median; ${formatNumber(assumed)} of ${formatNumber(count)} inputs assumed${isCurrent ? "" : "; of the plan as it was"}`;
    return { bands: answer.bands, isOld: !isCurrent, note };
  }, [isWanted, answer, isCurrent]);
};
