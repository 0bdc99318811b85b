/** How one cell of a flight or sortie is written: what stands in its field, and what a typed text makes of its row. */
import { instantDoubt, instantFault } from "../../widgets/instant-field.tsx";
import { type NumberRange, figure, readNumber } from "../../widgets/number-text.ts";
import { readInstant } from "../../../app/format/time.ts";
import type { CellEdit } from "../../widgets/data-table/column.ts";

export type Put<E> = { readonly ok: true; readonly value: E } | { readonly ok: false; readonly fault: string };

export interface CellSpec<E> extends CellEdit<E> {
  readonly heading: string;
  /** What is changed, for the undo menu: "departure". */
  readonly words: string;
  /** The row with this text in the cell; a fault says what is wrong and what may be written. */
  readonly put: (row: E, text: string) => Put<E>;
}

const no = (fault: string): Put<never> => ({ ok: false, fault });
const open = (): null => null;

interface TextOptions<E> {
  readonly heading: string;
  readonly words: string;
  readonly get: (row: E) => string;
  readonly set: (row: E, text: string) => E;
  readonly most: number;
}

export const textCell = <E>({ heading, words, get, set, most }: TextOptions<E>): CellSpec<E> => ({
  heading,
  words,
  draft: get,
  fixed: open,
  put: (row, text) => {
    if (text === "") return no("Required.");
    return text.length > most ? no(`is longer than ${most} characters.`) : { ok: true, value: set(row, text) };
  },
});

/** To the minute where that is all, else in full. */
const instantDraft = (at: number): string => {
  const iso = new Date(at).toISOString();
  if (at % 86_400_000 === 0) return iso.slice(0, 10);
  return at % 60_000 === 0 ? iso.slice(0, 16).replace("T", " ") : iso.replace("T", " ");
};

interface InstantOptions<E> {
  readonly heading: string;
  readonly words: string;
  readonly get: (row: E) => number;
  readonly set: (row: E, at: number) => E;
  readonly fixed: (row: E) => string | null;
}

export const instantCell = <E>({ heading, words, get, set, fixed }: InstantOptions<E>): CellSpec<E> => ({
  heading,
  words,
  draft: (row) => instantDraft(get(row)),
  fixed,
  put: (row, text) => {
    const at = readInstant(text);
    if (at === null) return no(instantFault(text, {}) ?? "is not a date.");
    // A form asks; a block of cells has no place to answer in.
    const doubt = instantDoubt(at);
    return doubt === null ? { ok: true, value: set(row, at) } : no(`${doubt} If so, write it in its form.`);
  },
});

interface NumberOptions<E> {
  readonly heading: string;
  readonly words: string;
  readonly range: NumberRange;
  /** In the unit of the range. */
  readonly get: (row: E) => number | null;
  readonly set: (row: E, value: number) => E;
  /** What an empty cell makes of the row; absent: it may not be empty. */
  readonly clear?: (row: E) => E;
  readonly fixed: (row: E) => string | null;
}

export const numberCell = <E>({ heading, words, range, get, set, clear, fixed }: NumberOptions<E>): CellSpec<E> => ({
  heading,
  words,
  draft: (row) => {
    const value = get(row);
    return value === null ? "" : figure(value, 9);
  },
  fixed,
  put: (row, text) => {
    if (clear !== undefined && text === "") return { ok: true, value: clear(row) };
    const read = readNumber(text, range);
    return read.ok ? { ok: true, value: set(row, read.value) } : no(read.fault);
  },
});

interface ChoiceOptions<E> {
  readonly heading: string;
  readonly words: string;
  readonly what: string;
  readonly choices: readonly { readonly id: string; readonly name: string }[];
  readonly get: (row: E) => string;
  readonly set: (row: E, id: string) => E;
  readonly fixed: (row: E) => string | null;
}

/** By its name, letter for letter but for large and small; never by a part of it. */
export const choiceCell = <E>({ heading, words, what, choices, get, set, fixed }: ChoiceOptions<E>): CellSpec<E> => ({
  heading,
  words,
  draft: (row) => choices.find(({ id }) => id === get(row))?.name ?? get(row),
  fixed,
  choices: choices.map(({ name }) => name),
  put: (row, text) => {
    const same = choices.filter(({ name }) => name.toLowerCase() === text.toLowerCase());
    const [found, second] = same;
    const names = choices.map(({ name }) => name).join(", ");
    if (found === undefined) return no(`There is no ${what} “${text.slice(0, 40)}”. Write one of: ${names}.`);
    if (second !== undefined) return no(`More than one ${what} is called ${found.name}. Choose it in its form.`);
    return { ok: true, value: set(row, found.id) };
  },
});
