/**
 * What is said once of a property of a flight or sortie. Its row of the form, its column of the table and of imported
 * rows, and the sentences of a preview and of a comparison follow from it.
 */

/** Kinds of row that a property may name by its id. */
export type NamedKind = "craft" | "depot" | "campaign" | "source" | "propellant";

/** What a row is called; its id where there is none. */
export type NameOf = (kind: NamedKind, id: string) => string;

/** A number; a mass in kg and a span in days may be imported in other units. */
export interface NumberValue {
  readonly kind: "number";
  readonly unit: "" | "kg" | "days";
  readonly min: number;
  readonly max: number;
  readonly isWhole?: boolean;
  /** As the table shows it. */
  readonly decimals: number;
}

/** A number that may be empty: null. */
export interface OptionalNumber extends NumberValue {
  /** What stands in the form where it is empty. */
  readonly emptyWords: string;
}

interface InstantValue {
  readonly kind: "instant";
}

/** One line of text that is never empty, or a note of many. */
interface TextValue {
  readonly kind: "text" | "note";
  /** Most characters. */
  readonly most: number;
}

export interface FieldChoice<V extends string = string> {
  readonly id: V;
  readonly name: string;
  /** A few words more, in the form. */
  readonly note?: string;
  /** Whence it is set: by its record alone, or in the form alone; absent: in the table and by rows as well. */
  readonly only?: "record" | "form";
}

interface ChoiceValue<V extends string = string> {
  readonly kind: "choice";
  readonly choices: readonly FieldChoice<V>[];
}

/** The id of another row. */
export interface NamedValue {
  readonly kind: "named";
  readonly of: "craft" | "depot" | "campaign";
  /** Of craft: those of this role. */
  readonly role?: "tanker" | "lander";
  /** "There is no tanker “Drover 9”." */
  readonly what: string;
}

/** By which a row is known again: rows alone have it, and nobody changes it. */
interface KeyValue {
  readonly kind: "key";
}

/** A list or a union: form, table and rows each ask the compiler for how they do it. */
interface OwnValue<E> {
  readonly kind: "own";
  /** What a preview says of it: "oxygen loaded", "12.3 t". */
  readonly said: (row: E, nameOf: NameOf) => readonly (readonly [what: string, words: string])[];
}

type AnyValue<E> =
  | NumberValue
  | OptionalNumber
  | InstantValue
  | TextValue
  | ChoiceValue
  | NamedValue
  | KeyValue
  | OwnValue<E>;

/** How a property of this type may be stated. */
type ValueOf<E, V> =
  | OwnValue<E>
  | ([V] extends [number]
      ? NumberValue | InstantValue
      : [V] extends [number | null]
        ? OptionalNumber
        : [V] extends [string]
          ? TextValue | ChoiceValue<V> | NamedValue | KeyValue
          : never);

/** From when on the record states it: once it has begun, or once it is over. */
export type Held = "begun" | "over";

interface Line<E, V, F, S extends string> {
  /** Its label in the form. */
  readonly label: string;
  /** What is changed, for undo and refusals: "departure". */
  readonly words: string;
  readonly value: F;
  /** null: it may always be changed. */
  readonly held: Held | null;
  /** The section of the form; null: the form does not show it. */
  readonly form: S | null;
  /** Its column of the table; null: it has none. `heading`: the label where it is not given. */
  readonly sheet: { readonly id: string; readonly heading?: string; readonly isWide?: boolean } | null;
  /** Its column of imported and exported rows; null: it has none of just this name. */
  readonly rows: RowsColumn | null;
  /** "stays 3 days instead of 2": what a comparison of plan cases says, or null where they do not differ in it. */
  readonly compare: "by value" | "never" | ((before: E, after: E, nameOf: NameOf) => string | null);
  /** What changes along with it. */
  along?(row: E, value: V): Partial<E>;
}

export interface RowsColumn {
  readonly id: string;
  /** The heading that an exported table gives it; the id, with spaces for hyphens, where it is not given. */
  readonly heading?: string;
  /** As a person is shown it; the label where it is not given. */
  readonly name?: string;
  /** Headings of other tables that mean it, in lower case, plain letters, without unit. */
  readonly synonyms: readonly string[];
  /** Without it no row can be read. */
  readonly isNeeded?: boolean;
  /** In a preview: "tanker"; the name in small letters where it is not given. */
  readonly said?: string;
}

/** A line for every property; null: nobody sees it. In the order in which rows and previews have them. */
export type FieldTable<E, S extends string = string> = {
  readonly [P in keyof E]-?: Line<E, E[P], ValueOf<E, E[P]>, S> | null;
};

export type Field<E> = Line<E, unknown, AnyValue<E>, string>;

/** Properties for which form, table and rows must each say how. */
export type OwnOf<T> = {
  [P in keyof T]: T[P] extends { readonly value: { readonly kind: "own" } } ? P : never;
}[keyof T] &
  string;

type Lines<E> = readonly (readonly [property: keyof E & string, field: Field<E>])[];

const linesOf = <E extends object>(table: FieldTable<E>, order: Iterable<keyof E & string>): Lines<E> =>
  [...order].flatMap((property) => {
    const field = table[property];
    return field === null ? [] : [[property, field] as const];
  });

/** The lines of each table in its own order: an import asks for them for every row. */
const inOwnOrder = new WeakMap<object, unknown>();

/** Properties that people see, each with its line: those of `first` first, the others in the table's order. */
export const fieldsOf = <E extends object>(
  table: FieldTable<E>,
  first: readonly (keyof E & string)[] = [],
): Lines<E> => {
  const own = Object.keys(table) as (keyof E & string)[];
  if (first.length > 0) return linesOf(table, new Set([...first, ...own]));
  const known = inOwnOrder.get(table) as Lines<E> | undefined;
  if (known !== undefined) return known;
  const lines = linesOf(table, own);
  inOwnOrder.set(table, lines);
  return lines;
};

export const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

const small = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** What it is called in running text: "time at the port". */
export const saidOf = <E>({ label, rows }: Field<E>): string => rows?.said ?? small(rows?.name ?? label);

/** The choices that are open to a table or to imported rows. */
export const openChoices = <V extends string>(choices: readonly FieldChoice<V>[]): readonly FieldChoice<V>[] =>
  choices.filter(({ only }) => only === undefined);

/** The choices that a form offers: all but those that a record alone states, and the present one. */
export const choicesInForm = <V extends string>(
  choices: readonly FieldChoice<V>[],
  now: V,
): readonly FieldChoice<V>[] => choices.filter(({ id, only }) => id === now || only !== "record");

/** Where a table's lines stand in rows and in the sheet, whatever they are of. */
type Places = Readonly<Record<string, Pick<Field<never>, "rows" | "sheet"> | null>>;

/** The column of rows that a property has; null: it has none. */
export const rowsColumnOf = (table: Places, property: string): string | null => table[property]?.rows?.id ?? null;

/** The column of the table that a property has; null: it has none. */
export const sheetColumnOf = (table: Places, property: string): string | null => table[property]?.sheet?.id ?? null;
