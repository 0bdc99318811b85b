/** One row a sortie: status, margin of each propellant, slack, what it hinges on, when it could go. */
import { useMemo } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { RiskAnswer } from "../../app/risk/answer.ts";
import { runsWords, shareText } from "../../app/risk/answer-words.ts";
import type { ShownRisk } from "../state/use-risk.ts";
import type { SortieSupply, SupplyGlance, SupplyAnswer } from "../../app/supply/answer.ts";
import { formatNumber } from "../format/number.ts";
import type { MassUnit } from "../format/mass.ts";
import { useManyRows } from "../state/use-many.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { dayColumn } from "../widgets/instant-column.ts";
import { massColumn } from "../widgets/mass-column.ts";
import { StatusMark } from "../widgets/status-mark.tsx";
import { type SortieRow, sortieRows } from "./sortie-rows.ts";

const WAITING = "…";

interface SupplyTableProps {
  readonly plan: PlanSnapshot;
  readonly glance: SupplyGlance;
  readonly answer: SupplyAnswer | null;
  readonly risk: ShownRisk;
}

const rank = { short: 0, "not stated": 1, thin: 2, supplied: 3 } as const;

const standingWords = ({ status, outcome, landerIsAway }: SortieSupply): string =>
  [status, ...(landerIsAway ? ["lander away"] : []), ...(outcome === "flies" ? [] : [outcome])].join(", ");

/** What a probability rests on. */
const basisWords = (answer: RiskAnswer, isCurrent: boolean): string =>
  [
    `probability to fly when planned and its standard error, of ${runsWords(answer)}`,
    isCurrent ? "" : "of the plan as it was; the new answer is on its way",
    `${String(answer.inputs.assumed)} of ${String(answer.inputs.count)} inputs are assumed`,
  ]
    .filter(Boolean)
    .join("; ");

const columnsFor = (
  rows: readonly SortieRow[],
  unit: MassUnit,
  select: (flightId: string) => void,
  { answer, isCurrent }: Pick<ShownRisk, "answer" | "isCurrent">,
): readonly Column<SortieRow>[] => {
  const limitingLine = ({ supply }: SortieRow) =>
    supply.lines.find(({ propellantId }) => propellantId === supply.limitingPropellantId);
  const riskOf = ({ supply }: SortieRow) => answer?.sorties.find(({ sortieId }) => sortieId === supply.sortieId);
  return [
    { id: "name", heading: "Sortie", value: (row) => row.supply.name },
    dayColumn("loads", "Loads", (row) => row.supply.plannedAt),
    {
      id: "status",
      heading: "Status",
      value: (row) => rank[row.supply.status],
      text: (row) => standingWords(row.supply),
      show: (row) => <StatusMark status={row.supply.status} words={standingWords(row.supply)} />,
    },
    {
      id: "probability",
      heading: "Probability",
      isNumber: true,
      value: (row) => riskOf(row)?.fliesWhenPlanned.value,
      text: (row) => {
        const found = riskOf(row);
        return found === undefined || answer === null
          ? WAITING
          : shareText(found.fliesWhenPlanned, answer.replications);
      },
      show: (row) => {
        const found = riskOf(row);
        return found === undefined || answer === null || isCurrent ? undefined : (
          <span className="supply-old">{shareText(found.fliesWhenPlanned, answer.replications)}</span>
        );
      },
      title: () => (answer === null ? undefined : basisWords(answer, isCurrent)),
    },
    { id: "limiting", heading: "Limited by", value: (row) => row.limiting },
    massColumn(rows, unit, {
      id: "margin",
      heading: "Margin",
      isSigned: true,
      isShortage: true,
      massKg: (row) => limitingLine(row)?.marginOverReserveKg ?? null,
      title: () => "what can be drawn, less the load and the reserve, of the limiting propellant",
    }),
    {
      id: "percent",
      heading: "",
      unit: "%",
      isNumber: true,
      value: (row) => limitingLine(row)?.marginPercent,
      text: (row) => formatNumber(limitingLine(row)?.marginPercent ?? NaN, 1),
    },
    massColumn(rows, unit, {
      id: "missing",
      heading: "Missing",
      isShortage: true,
      massKg: (row) => row.missingKg || null,
    }),
    dayColumn("possible", "Earliest loading", (row) => row.supply.firstPossibleAt),
    {
      id: "slack",
      heading: "Slack",
      unit: "days",
      isNumber: true,
      value: (row) => (row.slackDays === "any" ? Infinity : row.slackDays),
      text: (row) => {
        if (row.slackDays === null) return WAITING;
        return row.slackDays === "any" ? "no limit" : formatNumber(row.slackDays, 1);
      },
      title: (row) => (row.slackFlight === "" ? undefined : `${row.slackFlight} can slip by at most this`),
    },
    {
      id: "hinges",
      heading: "Hinges on",
      isWide: true,
      value: (row) => row.hinges?.length ?? null,
      text: (row) =>
        row.hinges === null ? WAITING : row.hinges.map(({ name }) => name).join(", ") || "no single flight",
      show: (row) =>
        row.hinges === null || row.hinges.length === 0 ? undefined : (
          <span className="supply-hinges">
            {row.hinges.map(({ id, name }) => (
              <Button key={id} look="link" onPress={() => select(id)}>
                {name}
              </Button>
            ))}
          </span>
        ),
    },
  ];
};

const sortieId = (row: SortieRow): string => row.supply.sortieId;

export const SortieTable = ({ plan, glance, answer, risk }: SupplyTableProps) => {
  const session = useSession();
  const unit = useApp((state) => state.massUnit);
  const selection = useApp((state) => state.selection);
  const many = useManyRows("sortie", sortieId);
  const rows = useMemo(() => sortieRows(plan, glance, answer), [plan, glance, answer]);
  const { answer: riskAnswer, isCurrent } = risk;
  const columns = useMemo(
    () => columnsFor(rows, unit, (id) => session.select({ kind: "flight", id }), { answer: riskAnswer, isCurrent }),
    [rows, unit, session, riskAnswer, isCurrent],
  );
  return (
    <DataTable
      caption="Margin over the reserve, of the propellant that limits"
      columns={columns}
      rows={rows}
      rowId={(row) => row.supply.sortieId}
      selectedId={selection?.kind === "sortie" ? selection.id : null}
      onSelect={(row) => session.select({ kind: "sortie", id: row.supply.sortieId })}
      {...many}
      empty="There is no sortie ahead."
    />
  );
};
