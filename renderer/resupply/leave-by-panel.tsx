/** When each planned flight must leave at the latest, soonest first, and what a later or an earlier departure would do. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { LeaveBy } from "../../app/resupply/leave-by-answer.ts";
import { classLeaveBySentence, leaveByReason } from "../../app/resupply/leave-by-words.ts";
import { formatInstant } from "../format/instant.ts";
import { formatNumber } from "../format/number.ts";
import { useLeaveBy } from "../state/use-leave-by.ts";
import { useApp, useSession } from "../state/use-session.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { RunPart } from "../widgets/run-part.tsx";
import { nameIn } from "../../app/words/named.ts";

/** Rounded down: nobody is told of more time than there is. */
const spareDays = ({ latestAt, departAt }: LeaveBy): number =>
  latestAt === null ? Infinity : Math.floor(((latestAt - departAt) / DAY_MS) * 10) / 10;

const columnsFor = (plan: PlanSnapshot): readonly Column<LeaveBy>[] => [
  {
    id: "latest",
    heading: "Leave by",
    value: ({ latestAt }) => latestAt ?? Infinity,
    text: ({ latestAt }) => (latestAt === null ? "no limit" : formatInstant(latestAt)),
  },
  {
    id: "flight",
    heading: "Flight",
    value: ({ flightId }) => nameIn(plan.flights, flightId),
  },
  instantColumn("departs", "Departs", ({ departAt }) => departAt),
  {
    id: "spare",
    heading: "Can slip by",
    unit: "days",
    isNumber: true,
    value: spareDays,
    text: (row) => (row.latestAt === null ? "no limit" : formatNumber(spareDays(row), 1)),
  },
  instantColumn("earliest", "Not before", ({ earliestAt }) => earliestAt),
  { id: "why", heading: "Why", isSentence: true, value: (row) => leaveByReason(plan, row) },
];

export const LeaveByPanel = ({ plan }: { plan: PlanSnapshot }) => {
  const session = useSession();
  const selection = useApp((state) => state.selection);
  const { value, isCurrent, run, failure, again } = useLeaveBy();
  const columns = useMemo(() => columnsFor(plan), [plan]);
  return (
    <div className="resupply-sheet">
      <RunPart
        question={{ run, failure, again }}
        words="Working out latest departures"
        againWords="Work it out again"
      />
      {value !== null && (
        <div className={isCurrent ? "resupply-sheet" : "resupply-sheet resupply-old"}>
          <DataTable
            caption="Leave by: each flight alone, all others as planned"
            columns={columns}
            rows={value.flights}
            rowId={({ flightId }) => flightId}
            selectedId={selection?.kind === "flight" ? selection.id : null}
            onSelect={({ flightId }) => session.select({ kind: "flight", id: flightId })}
            empty="No flight is still to depart."
          />
          {value.classes.length > 0 && (
            <ul className="sentence-list">
              {value.classes.map((row) => (
                <li key={row.classId}>{classLeaveBySentence(plan, row)}</li>
              ))}
            </ul>
          )}
        </div>
      )}
    </div>
  );
};
