/** Fields tied to a property of the thing that a form edits. */
import { bareName } from "../../app/supply/near-equal-names.ts";
import { type Choice, ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField, type InstantFieldProps } from "../widgets/instant-field.tsx";
import { NoteField } from "../widgets/note-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { TextField } from "../widgets/text-field.tsx";
import type { Editing } from "./editing.ts";

/** Names of the properties of E that hold a V. */
type FieldOf<E, V> = { [P in keyof E]-?: E[P] extends V ? P : never }[keyof E] & string;

interface Bound<E, V> {
  readonly edit: Editing<E>;
  readonly field: FieldOf<E, V>;
  readonly label: string;
  /** What is changed; the label in small letters where it is not given. */
  readonly words?: string;
  readonly origin?: string | null;
}

const wordsOf = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);
const patch = <E,>(field: keyof E, value: unknown): Partial<E> => ({ [field]: value }) as unknown as Partial<E>;

interface EditTextProps<E> extends Bound<E, string> {
  readonly most?: number;
  readonly isRequired?: boolean;
  readonly placeholder?: string;
  /** Things of the same kind: a name that one of them has already is asked about. */
  readonly others?: readonly { readonly id: string; readonly name: string }[];
}

/** A question where a name is one of the others', or differs from it in nothing that a reader sees; null: it is not. */
export const nameDoubt = (
  name: string,
  ownId: string,
  others: readonly { readonly id: string; readonly name: string }[],
): string | null => {
  const bare = bareName(name);
  if (bare === "") return null;
  const same = others.find((row) => row.id !== ownId && bareName(row.name) === bare);
  if (same === undefined) return null;
  return `Another is called “${same.name}” already. Are they two?`;
};

export const EditText = <E,>({
  edit,
  field,
  label,
  words = wordsOf(label),
  most = 80,
  others,
  ...rest
}: EditTextProps<E>) => (
  <TextField
    {...rest}
    label={label}
    {...(others === undefined
      ? {}
      : { doubt: (text) => nameDoubt(text, (edit.value as { readonly id?: string }).id ?? "", others) })}
    most={most}
    value={edit.value[field] as string}
    isReadOnly={edit.isReadOnly}
    fault={edit.faultOf(field)}
    onCommit={(text) => edit.change(patch<E>(field, text), words)}
  />
);

export const EditNote = <E,>({ edit, field, label, words = wordsOf(label) }: Bound<E, string>) => (
  <NoteField
    label={label}
    value={edit.value[field] as string}
    isReadOnly={edit.isReadOnly}
    fault={edit.faultOf(field)}
    onCommit={(text) => edit.change(patch<E>(field, text), words)}
  />
);

interface EditNumberProps<E> extends Bound<E, number | null> {
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly isMinOpen?: boolean;
  readonly isWhole?: boolean;
  readonly step?: number;
  /** May be emptied; this is what stands there then. */
  readonly emptyWords?: string;
}

export const EditNumber = <E,>({
  edit,
  field,
  label,
  words = wordsOf(label),
  emptyWords,
  ...rest
}: EditNumberProps<E>) => (
  <NumberField
    {...rest}
    label={label}
    value={edit.value[field] as number | null}
    isReadOnly={edit.isReadOnly}
    fault={edit.faultOf(field)}
    onCommit={(value) => edit.change(patch<E>(field, value), words)}
    {...(emptyWords === undefined
      ? {}
      : { placeholder: emptyWords, onClear: () => edit.change(patch<E>(field, null), words) })}
  />
);

interface EditInstantProps<E>
  extends Bound<E, number | null>, Pick<InstantFieldProps, "emptyWords" | "earliestAt" | "latestAt"> {
  /** What changes along with it. */
  readonly along?: (at: number) => Partial<E>;
}

export const EditInstant = <E,>({
  edit,
  field,
  label,
  words = wordsOf(label),
  along,
  ...rest
}: EditInstantProps<E>) => (
  <InstantField
    {...rest}
    label={label}
    value={edit.value[field] as number | null}
    isReadOnly={edit.isReadOnly}
    fault={edit.faultOf(field)}
    onCommit={(at) => edit.change({ ...patch<E>(field, at), ...along?.(at) }, words)}
    {...(rest.emptyWords === undefined ? {} : { onClear: () => edit.change(patch<E>(field, null), words) })}
  />
);

interface EditChoiceProps<E> extends Bound<E, string> {
  readonly choices: readonly Choice<string>[];
  /** What changes along with the choice. */
  readonly along?: (id: string) => Partial<E>;
}

export const EditChoice = <E,>({
  edit,
  field,
  label,
  words = wordsOf(label),
  choices,
  along,
  origin,
}: EditChoiceProps<E>) => (
  <ChoiceField
    label={label}
    choices={choices}
    origin={origin ?? null}
    value={edit.value[field] as string}
    isReadOnly={edit.isReadOnly}
    fault={edit.faultOf(field)}
    onCommit={(id) => edit.change({ ...patch<E>(field, id), ...along?.(id) }, words)}
  />
);

/** Choices from rows with a name. */
export const choicesOf = (rows: readonly { readonly id: string; readonly name: string }[]): readonly Choice<string>[] =>
  rows.map(({ id, name }) => ({ id, name }));
