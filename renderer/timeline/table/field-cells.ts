/** The cells of a table of flights or sorties, as its fields have them: which are written, and what each makes of its row. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import {
  type Field,
  type FieldTable,
  type Held,
  type OwnOf,
  fieldsOf,
  openChoices,
} from "../../../app/fields/field.ts";
import { rowsToName } from "../../../app/fields/named-rows.ts";
import { missingCase } from "../../../app/ground/missing-case.ts";
import { type CellSpec, choiceCell, instantCell, numberCell, textCell } from "./cell-spec.ts";

/** A cell with its column's id. */
export type NamedCell<E> = readonly [columnId: string, cell: CellSpec<E>];

export const BY_RECORD = "It has happened: its records say so. Reverse the record in the journal to change it.";

/** Why a row's field cannot be changed any more, in a sentence; null: it can. */
export type FixedBy<E> = Readonly<Record<Held, (row: E) => string | null>>;

const open = (): null => null;

const cellOf = <E extends object>(
  plan: PlanSnapshot,
  property: keyof E & string,
  field: Field<E>,
  heading: string,
  fixedBy: FixedBy<E>,
): CellSpec<E> | null => {
  const { words, value: form } = field;
  const get = (row: E): never => row[property] as never;
  const set = (row: E, value: unknown): E => ({ ...row, [property]: value, ...field.along?.(row, value) });
  const fixed = field.held === null ? open : fixedBy[field.held];
  const same = { heading, words, get, set, fixed };
  switch (form.kind) {
    case "text":
      return textCell({ ...same, most: form.most });
    case "instant":
      return instantCell(same);
    case "number":
      return numberCell({
        ...same,
        range: form,
        ...("emptyWords" in form ? { clear: (row: E) => set(row, null) } : {}),
      });
    case "choice":
      return choiceCell({ ...same, what: words, choices: openChoices(form.choices) });
    case "named":
      return choiceCell({ ...same, what: form.what, choices: rowsToName(plan, form) });
    case "note":
    case "key":
    case "own":
      return null;
    default:
      return missingCase(form);
  }
};

/**
 * By the column's id, in the order in which they are to be written: a departure moves the arrival along. `first`: fields
 * before all others; `own`: the cells of lists and unions.
 */
export const fieldCells = <E extends object, T extends FieldTable<E>>(
  plan: PlanSnapshot,
  table: T & FieldTable<E>,
  first: readonly (keyof E & string)[],
  fixedBy: FixedBy<E>,
  own: Readonly<Record<OwnOf<T>, readonly NamedCell<E>[]>>,
): ReadonlyMap<string, CellSpec<E>> => {
  const lists = own as Readonly<Record<string, readonly NamedCell<E>[]>>;
  return new Map(
    fieldsOf<E>(table, first).flatMap(([property, field]): readonly NamedCell<E>[] => {
      const cells = lists[property];
      if (cells !== undefined) return cells;
      if (field.sheet === null) return [];
      const cell = cellOf(plan, property, field, field.sheet.heading ?? field.label, fixedBy);
      return cell === null ? [] : [[field.sheet.id, cell]];
    }),
  );
};
