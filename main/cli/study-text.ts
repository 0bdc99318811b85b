/** Rankings as text. */
import type { Ranking } from "../../app/study/ranking.ts";
import { textTable } from "./text-table.ts";

const share = (value: number): string => value.toFixed(3).replace("-", "−");

export const rankingText = (ranking: Ranking, columns: readonly { readonly name: string }[]): string => {
  if (ranking.inputs.length === 0)
    return `${ranking.of} is the same at all ${ranking.rows} rows: none of the inputs matters to it here.`;
  const table = textTable(
    [
      { title: "Input", align: "start" },
      { title: "Total", align: "end" },
      { title: "95 %", align: "end" },
      { title: "Alone", align: "end" },
      { title: "95 %", align: "end" },
    ],
    ranking.inputs.map((row) => [
      columns[row.input]?.name ?? "",
      share(row.total),
      `${share(row.totalInterval.low)} to ${share(row.totalInterval.high)}`,
      share(row.first),
      `${share(row.firstInterval.low)} to ${share(row.firstInterval.high)}`,
    ]),
  );
  return `What matters to ${ranking.of}: the share of its variance that hangs on each input (${ranking.rows} rows)\n${table}`;
};
