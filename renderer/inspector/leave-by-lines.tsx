/** When the selected flight must leave, and may at the earliest, with what keeps it. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { leaveByReason } from "../../app/resupply/leave-by-words.ts";
import { capitalised } from "../../app/words/counted.ts";
import { formatInstant } from "../format/instant.ts";
import { useLeaveBy } from "../state/use-leave-by.ts";
import { StatedRow } from "../widgets/form-row.tsx";
import { Sentence } from "../widgets/sentence.tsx";

/** Nothing for a flight that has departed, and until it is worked out. */
export const LeaveByLines = ({ plan, flightId }: { plan: PlanSnapshot; flightId: string }) => {
  const { value, isCurrent } = useLeaveBy();
  const row = isCurrent ? value?.flights.find((each) => each.flightId === flightId) : undefined;
  if (row === undefined) return null;
  const { latestAt, earliestAt } = row;
  return (
    <>
      <StatedRow label="Leave by">{latestAt === null ? "no limit" : formatInstant(latestAt)}</StatedRow>
      <StatedRow label="Not before">{formatInstant(earliestAt)}</StatedRow>
      <p className="consequence">
        <Sentence words={`${capitalised(leaveByReason(plan, row))}.`} />
      </p>
    </>
  );
};
