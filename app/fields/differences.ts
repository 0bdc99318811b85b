/** A field's value in words, and how two states of one row differ, field by field. */
import { formatMass } from "../format/mass.ts";
import { formatDate, formatMinute } from "../format/time.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { missingCase } from "../ground/missing-case.ts";
import { type Field, type FieldTable, type NameOf, fieldsOf, isSame, saidOf } from "./field.ts";
import { movedWords } from "./moved-words.ts";

const numberWords = (value: number, unit: "" | "kg" | "days"): string => {
  if (unit === "kg") return formatMass(value);
  const figure = Number(value.toFixed(3));
  return unit === "" ? String(figure) : `${figure} ${value === 1 ? "day" : "days"}`;
};

const wordsOf = <E>({ value: form }: Field<E>, value: unknown, nameOf: NameOf): string => {
  if (value === null) return "";
  switch (form.kind) {
    case "number":
      return numberWords(value as number, form.unit);
    case "instant":
      return (value as number) % DAY_MS === 0 ? formatDate(value as number) : formatMinute(value as number);
    case "named":
      return nameOf(form.of, value as string);
    case "text":
    case "note":
    case "choice":
    case "key":
      return value as string;
    case "own":
      return "";
    default:
      return missingCase(form);
  }
};

/** What a row says, field by field, as the preview of an import has it: "arrives", "2031-02-24"; "" where it says nothing. */
export const saidBy = <E extends object>(
  table: FieldTable<E>,
  row: E,
  nameOf: NameOf,
): readonly (readonly [what: string, words: string])[] =>
  fieldsOf(table).flatMap(([property, field]): readonly (readonly [string, string])[] => {
    if (field.value.kind === "own") return field.value.said(row, nameOf);
    return field.value.kind === "key" ? [] : [[saidOf(field), wordsOf(field, row[property], nameOf)]];
  });

const byValue = <E extends object>(
  property: keyof E & string,
  field: Field<E>,
  before: E,
  after: E,
  nameOf: NameOf,
): string | null => {
  const [old, now] = [before[property], after[property]];
  if (isSame(old, now)) return null;
  if (field.value.kind === "instant" && typeof old === "number" && typeof now === "number")
    return movedWords(saidOf(field), old, now);
  const say = (value: unknown): string => wordsOf(field, value, nameOf) || "none";
  const [was, is] = [say(old), say(now)];
  // A difference too small for the words is still one.
  return was === is
    ? `${saidOf(field)} ${String(now)} instead of ${String(old)}`
    : `${saidOf(field)} ${is} instead of ${was}`;
};

/** How a row differs from what it was, a part of a sentence for each field; `first`: what is told first. */
export const fieldDifferences = <E extends object>(
  table: FieldTable<E>,
  first: readonly (keyof E & string)[],
  before: E,
  after: E,
  nameOf: NameOf,
): readonly string[] =>
  fieldsOf(table, first).flatMap(([property, field]) => {
    if (field.compare === "never") return [];
    const words =
      field.compare === "by value"
        ? byValue(property, field, before, after, nameOf)
        : field.compare(before, after, nameOf);
    return words === null ? [] : [words];
  });
