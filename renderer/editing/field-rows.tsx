/** The rows of a form, as the fields of its kind have them: label, unit, range, choices, and what changes along. */
import type { ReactNode } from "react";
import { Fragment } from "react";
import {
  type Field,
  type FieldTable,
  type Held,
  type NumberValue,
  type OptionalNumber,
  type OwnOf,
  choicesInForm,
  fieldsOf,
} from "../../app/fields/field.ts";
import { rowsToName } from "../../app/fields/named-rows.ts";
import { missingCase } from "../../app/ground/missing-case.ts";
import { EditChoice, EditInstant, EditNote, EditNumber, EditText, choicesOf } from "./bound-fields.tsx";
import type { Editing } from "./editing.ts";

/** Names of the sections of a table. */
type SectionOf<T> = { [P in keyof T]: T[P] extends { readonly form: infer S extends string } ? S : never }[keyof T];

export interface FormOf<E, T> {
  readonly edit: Editing<E>;
  readonly table: T;
  /** Whether its record states by now what is held so. */
  readonly isHeld: (held: Held) => boolean;
  /** The rows of lists and unions, and of whatever says more than its field. */
  readonly own: Readonly<Record<OwnOf<T>, ReactNode>> & { readonly [P in keyof E]?: ReactNode };
  /** Where a value comes from when nobody stated it. */
  readonly origins?: { readonly [P in keyof E]?: string | null };
}

interface RowProps<E> {
  readonly edit: Editing<E>;
  readonly property: keyof E & string;
  readonly field: Field<E>;
  readonly origin: string | null;
}

/** Without the decimals, which are the table's: a form shows all that there are. */
const numberProps = ({ unit, min, max, isWhole, ...rest }: NumberValue | OptionalNumber) => ({
  unit,
  min,
  max,
  ...(isWhole === undefined ? {} : { isWhole }),
  ...("emptyWords" in rest ? { emptyWords: rest.emptyWords } : {}),
});

const FieldRow = <E extends object>({ edit, property, field, origin }: RowProps<E>) => {
  const { label, words, value: form } = field;
  const same = { edit, field: property as never, label, words, origin };
  switch (form.kind) {
    case "text":
      return <EditText {...same} most={form.most} />;
    case "note":
      return <EditNote {...same} />;
    case "number":
      return <EditNumber {...same} {...numberProps(form)} />;
    case "instant":
      return <EditInstant {...same} along={(at) => field.along?.(edit.value, at) ?? {}} />;
    case "choice":
      return <EditChoice {...same} choices={choicesInForm(form.choices, edit.value[property] as string)} />;
    case "named":
      return <EditChoice {...same} choices={choicesOf(rowsToName(edit.plan, form))} />;
    case "key":
    case "own":
      return null;
    default:
      return missingCase(form);
  }
};

/** The rows of one section, in the table's order. */
export const FieldRows = <E extends object, T extends FieldTable<E>>({
  form: { edit, table, isHeld, own, origins },
  section,
}: {
  readonly form: FormOf<E, T & FieldTable<E>>;
  readonly section: SectionOf<T>;
}) => {
  const rows = own as { readonly [P in keyof E]?: ReactNode };
  return fieldsOf<E>(table)
    .filter(([, field]) => field.form === section)
    .map(([property, field]) => {
      const row = rows[property];
      if (row !== undefined) return <Fragment key={property}>{row}</Fragment>;
      const isReadOnly = edit.isReadOnly || (field.held !== null && isHeld(field.held));
      return (
        <FieldRow
          key={property}
          edit={{ ...edit, isReadOnly }}
          property={property}
          field={field}
          origin={origins?.[property] ?? null}
        />
      );
    });
};
