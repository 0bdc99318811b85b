/** The columns of a table of flights or sorties, as its fields have them. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { type Field, type FieldTable, type OwnOf, fieldsOf } from "../../../app/fields/field.ts";
import { rowsToName } from "../../../app/fields/named-rows.ts";
import { formatInstant, formatWithWeekday } from "../../format/instant.ts";
import { formatNumber } from "../../format/number.ts";
import type { Column } from "../../widgets/data-table/column.ts";

/** A column of instants. */
export const instantColumn = <R>(id: string, heading: string, at: (row: R) => number): Column<R> => ({
  id,
  heading,
  value: at,
  text: (row) => formatInstant(at(row)),
  title: (row) => formatWithWeekday(at(row)),
});

const columnOf = <R>(
  plan: PlanSnapshot,
  { value: form }: Field<never>,
  id: string,
  heading: string,
  get: (row: R) => unknown,
): Column<R> => {
  if (form.kind === "instant") return instantColumn(id, heading, (row) => get(row) as number);
  if (form.kind === "number")
    return {
      id,
      heading,
      ...(form.unit === "" ? {} : { unit: form.unit }),
      isNumber: true,
      value: (row) => get(row) as number | null,
      text: (row) => {
        const value = get(row) as number | null;
        return value === null ? "" : formatNumber(value, form.decimals);
      },
    };
  if (form.kind !== "named") return { id, heading, value: (row) => get(row) as string };
  const names = new Map(rowsToName(plan, { of: form.of }).map((row) => [row.id, row.name]));
  return { id, heading, value: (row) => names.get(get(row) as string) ?? "" };
};

/** `rowOf`: what a line of the table shows; `first`: fields before all others; `own`: the columns of lists and unions. */
export const fieldColumns = <R, E extends object, T extends FieldTable<E>>(
  plan: PlanSnapshot,
  table: T & FieldTable<E>,
  first: readonly (keyof E & string)[],
  rowOf: (line: R) => E,
  own: Readonly<Record<OwnOf<T>, readonly Column<R>[]>>,
): readonly Column<R>[] => {
  const lists = own as Readonly<Record<string, readonly Column<R>[]>>;
  return fieldsOf<E>(table, first).flatMap(([property, field]): readonly Column<R>[] => {
    const columns = lists[property];
    if (columns !== undefined) return columns;
    if (field.sheet === null) return [];
    const { id, heading = field.label, isWide } = field.sheet;
    const column = columnOf<R>(plan, field as Field<never>, id, heading, (line) => rowOf(line)[property]);
    return [isWide === true ? { ...column, isWide } : column];
  });
};
