/** The sums of the filtered journal by account, exact to the gram. */
import { useMemo } from "react";
import type { JournalSum } from "../../app/ledger/ledger-view.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { accountId, toKg } from "../../app/ledger/journal.ts";
import { formatSigned } from "../format/number.ts";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { PropellantMark } from "../widgets/propellant-mark.tsx";
import { accountKindWords, accountWords } from "../names/account-words.ts";

const columnsFor = (plan: PlanSnapshot): readonly Column<JournalSum>[] => {
  const propellantOf = ({ propellantId }: JournalSum) => plan.propellants.find(({ id }) => id === propellantId);
  return [
    { id: "account", heading: "Account", value: ({ account }) => accountWords(plan, account) },
    { id: "kind", heading: "Kind", value: ({ account }) => accountKindWords[account.kind] },
    {
      id: "propellant",
      heading: "Propellant",
      value: (sum) => propellantOf(sum)?.name,
      show: (sum) => <PropellantMark propellant={propellantOf(sum)} />,
    },
    {
      id: "sum",
      heading: "Sum",
      unit: "kg",
      isNumber: true,
      value: ({ grams }) => toKg(grams),
      text: ({ grams }) => formatSigned(toKg(grams), 3),
    },
  ];
};

export const SumTable = ({ sums, plan }: { sums: readonly JournalSum[]; plan: PlanSnapshot }) => {
  const columns = useMemo(() => columnsFor(plan), [plan]);
  const rows = useMemo(() => sums.filter(({ grams }) => grams !== 0), [sums]);
  return (
    <DataTable
      caption="Totals"
      columns={columns}
      rows={rows}
      rowId={(sum) => `${accountId(sum.account)}/${sum.propellantId}`}
      empty="Nothing to sum."
    />
  );
};
