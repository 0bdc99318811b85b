/** The resupply proposal as the timeline shows it: its flights as ghosts, its levels as those of a compared case. */
import { useMemo } from "react";
import type { CaseForecast } from "../../state/case-forecast.ts";
import { useResupply } from "../../state/use-resupply.ts";
import { useApp } from "../../state/use-session.ts";
import type { ModelProposal } from "./timeline-model.ts";

interface Compared {
  /** The case compared with, or the proposal in its place; null: nothing. */
  readonly compare: CaseForecast | null;
  readonly proposal: ModelProposal | null;
}

/** A case that is compared comes first: two dotted curves could not be told apart. */
export const useCompared = (): Compared => {
  const compare = useApp((state) => state.compare);
  const isTrial = useApp((state) => state.trial !== null);
  const { proposed, isOld, isOnTimeline } = useResupply();
  return useMemo((): Compared => {
    if (isTrial || compare !== null || proposed === null || isOld || !isOnTimeline) return { compare, proposal: null };
    const { added, leftOutIds } = proposed.proposal;
    if (added.length === 0 && leftOutIds.length === 0) return { compare, proposal: null };
    return { compare: proposed.forecast, proposal: { added, leftOutIds: new Set(leftOutIds) } };
  }, [isTrial, compare, proposed, isOld, isOnTimeline]);
};
