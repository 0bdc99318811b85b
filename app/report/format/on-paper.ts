/** A report as paper and page show it: long tables cut to what is meant for them. Workbook and CSV have the whole. */
import type { Block, ReportModel } from "../model.ts";

const cut = (block: Block): Block => {
  if (block.kind !== "table" || block.onPaper === undefined) return block;
  const { onPaper: part, ...table } = block;
  return {
    ...table,
    columns: table.columns.slice(0, part.columns),
    rows: table.rows.slice(0, part.rows).map((row) => row.slice(0, part.columns)),
    marks: table.marks?.filter(({ row }) => row < part.rows),
  };
};

export const onPaper = (report: ReportModel): ReportModel => ({
  ...report,
  sections: report.sections.map((section) => ({ ...section, blocks: section.blocks.map(cut) })),
});
