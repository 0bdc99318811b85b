/** A table of plain text: columns aligned, figures to the right. */

export interface TextColumn {
  readonly title: string;
  readonly align: "start" | "end";
}

/** Rows have a cell for each column. Lines carry no blanks at their end. */
export const textTable = (columns: readonly TextColumn[], rows: readonly (readonly string[])[]): string => {
  const widths = columns.map(({ title }, i) => Math.max(title.length, ...rows.map((row) => row[i]?.length ?? 0)));
  const lineOf = (cells: readonly string[]): string =>
    columns
      .map(({ align }, i) => {
        const cell = cells[i] ?? "";
        return align === "end" ? cell.padStart(widths[i] ?? 0) : cell.padEnd(widths[i] ?? 0);
      })
      .join("  ")
      .trimEnd();
  return [lineOf(columns.map(({ title }) => title)), ...rows.map(lineOf)].join("\n");
};
