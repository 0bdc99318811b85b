/** Two plan cases: how the sorties stand in each, and what differs between the plans. */
import { useMemo } from "react";
import type { CaseForecast } from "../state/case-forecast.ts";
import { useSession } from "../state/use-session.ts";
import { formatSigned } from "../format/number.ts";
import type { SortieSupply } from "../../app/supply/answer.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { instantColumn } from "../widgets/instant-column.ts";
import { StatusMark } from "../widgets/status-mark.tsx";
import { ViewPart } from "../widgets/view-sheet.tsx";
import { type Difference, comparePlans } from "../../app/ledger/compare-plans.ts";
import { RiskDifferencePart } from "./risk-difference.tsx";
import { type StatusPair, marginOf, statusPairs } from "./compare-statuses.ts";

type Side = "here" | "there";

const sideColumns = (side: Side, caseName: string): readonly Column<StatusPair>[] => {
  const supply = (pair: StatusPair): SortieSupply | null => pair[side];
  return [
    instantColumn(`${side} loads`, `${caseName}: loads`, (pair) => supply(pair)?.plannedAt ?? null, "not in it"),
    {
      id: `${side} status`,
      heading: "Status",
      value: (pair) => supply(pair)?.status,
      show: (pair) => {
        const found = supply(pair);
        return found === null ? undefined : <StatusMark status={found.status} />;
      },
    },
    {
      id: `${side} margin`,
      heading: "Least margin",
      unit: "%",
      isNumber: true,
      value: (pair) => marginOf(supply(pair)),
      text: (pair) => {
        const margin = marginOf(supply(pair));
        return margin === null ? "" : formatSigned(margin, 1);
      },
    },
  ];
};

const differenceColumns: readonly Column<Difference>[] = [
  { id: "name", heading: "What", value: ({ name }) => name },
  { id: "kind", heading: "Kind", value: ({ kind }) => (kind === "planCase" ? "plan case" : kind) },
  { id: "change", heading: "Is", value: ({ change }) => change },
  { id: "words", heading: "How", isSentence: true, value: ({ words }) => words },
];

export const Comparison = ({ current, compare }: { current: CaseForecast; compare: CaseForecast }) => {
  const session = useSession();
  const pairs = useMemo(() => statusPairs(current.glance, compare.glance), [current, compare]);
  const differences = useMemo(() => comparePlans(compare.plan, current.plan), [current, compare]);
  const here = current.plan.planCase.name;
  const there = compare.plan.planCase.name;
  const columns = useMemo(
    (): readonly Column<StatusPair>[] => [
      { id: "name", heading: "Sortie", value: ({ name }) => name },
      ...sideColumns("here", here),
      ...sideColumns("there", there),
    ],
    [here, there],
  );
  return (
    <>
      <ViewPart>
        <DataTable
          caption={`How the sorties stand: ${here} beside ${there}`}
          columns={columns}
          rows={pairs}
          rowId={({ key }) => key}
          onSelect={({ here: supply }) => supply !== null && session.select({ kind: "sortie", id: supply.sortieId })}
          empty="Neither case has a sortie ahead."
        />
      </ViewPart>
      <RiskDifferencePart current={current} compare={compare} />
      <ViewPart>
        <DataTable
          caption={`What differs in ${here} from ${there}`}
          columns={differenceColumns}
          rows={differences}
          rowId={({ kind, id, words }) => `${kind}/${id}/${words}`}
          onSelect={({ kind, id, change }) => change !== "removed" && session.select({ kind, id })}
          empty="Nothing: the two plans are the same."
        />
      </ViewPart>
    </>
  );
};
