/** A part of something under a form: its value, how it is committed, and what is typed so far. */
import type { NumberFieldProps } from "../widgets/number-field.tsx";

export interface Part<T> {
  readonly value: T;
  readonly isReadOnly: boolean;
  readonly commit: (next: T, words: string) => void;
  /** As one types; null: what was typed cannot be taken, or was given up. */
  readonly type: (next: T | null) => void;
}

type NumberOf<T> = { [P in keyof T]: T[P] extends number ? P : never }[keyof T] & string;

/** Ties a number field to a property. `words` name it for the edit history. */
export const numberOf = <T extends object>(
  part: Part<T>,
  field: NumberOf<T>,
  words: string,
): Pick<NumberFieldProps, "value" | "isReadOnly" | "onCommit" | "onType"> => {
  const put = (value: number): T => ({ ...part.value, [field]: value });
  return {
    value: part.value[field] as number,
    isReadOnly: part.isReadOnly,
    onCommit: (value) => part.commit(put(value), words),
    onType: (value) => part.type(value === null ? null : put(value)),
  };
};

/** The part of a part. */
export const partOf = <T extends object, P extends keyof T>(whole: Part<T>, field: P): Part<T[P]> => ({
  value: whole.value[field],
  isReadOnly: whole.isReadOnly,
  commit: (next, words) => whole.commit({ ...whole.value, [field]: next }, words),
  type: (next) => whole.type(next === null ? null : { ...whole.value, [field]: next }),
});

/** One place of a list. */
export const placeOf = <E>(list: Part<E[]>, place: number): Part<E> => ({
  value: list.value[place] as E,
  isReadOnly: list.isReadOnly,
  commit: (next, words) => list.commit(list.value.with(place, next), words),
  type: (next) => list.type(next === null ? null : list.value.with(place, next)),
});
