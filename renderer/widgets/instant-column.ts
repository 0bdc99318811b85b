/** A column of instants: ISO, the weekday on hover. */
import { formatDate, formatInstant, formatWithWeekday } from "../format/instant.ts";
import type { Column } from "./data-table/column.ts";

export const instantColumn = <R>(
  id: string,
  heading: string,
  at: (row: R) => number | null,
  emptyWords = "",
): Column<R> => ({
  id,
  heading,
  value: at,
  text: (row) => {
    const instant = at(row);
    return instant === null ? emptyWords : formatInstant(instant);
  },
  title: (row) => {
    const instant = at(row);
    return instant === null ? undefined : formatWithWeekday(instant);
  },
});

/** The same with the day alone, where the time is for the tooltip. */
export const dayColumn = <R>(id: string, heading: string, at: (row: R) => number | null): Column<R> => ({
  ...instantColumn(id, heading, at),
  text: (row) => {
    const instant = at(row);
    return instant === null ? "" : formatDate(instant);
  },
});
