/** What an import wrote, in words. */
import type { RowsPreview } from "../../app/exchange/rows/rows-preview.ts";
import { formatNumber } from "../format/number.ts";

const one = { flights: "flight", sorties: "sortie", readings: "reading" } as const;

/** "5 flights added, 2 changed"; "1 reading changed". */
export const importedWords = ({
  kind,
  newRows,
  changedRows,
}: Pick<RowsPreview, "kind" | "newRows" | "changedRows">): string => {
  const counted = (rows: number): string => `${formatNumber(rows)} ${rows === 1 ? one[kind] : kind}`;
  if (newRows === 0) return `${counted(changedRows)} changed`;
  return `${counted(newRows)} added${changedRows === 0 ? "" : `, ${formatNumber(changedRows)} changed`}`;
};
