/** Which of the things that have a name match what was typed, the best first. */
import type { FindItem } from "./find-items.ts";

/** More are not shown; typing on is faster than reading on. */
export const MAX_FOUND = 40;

/** Shorter words are looked for in names alone. */
const LEAST_IN_DESCRIPTION = 3;

const MARKS = /\p{M}/gu;

/** Small letters without their marks: "Überlauf" is found by "uber". */
const plain = (text: string): string => text.normalize("NFD").replaceAll(MARKS, "").toLowerCase();

/** 0: the name begins so; 1: a word of it does; 2: it stands within; 3: only what it is says so; null: nowhere. */
const rankOf = (name: string, what: string, word: string): number | null => {
  if (name.startsWith(word)) return 0;
  if (name.includes(` ${word}`)) return 1;
  if (name.includes(word)) return 2;
  // A letter or two stand in every description.
  return word.length >= LEAST_IN_DESCRIPTION && what.includes(word) ? 3 : null;
};

/**
 * Items in which every word of `typed` occurs, in name or description, the best first, then in the given order; at most
 * {@link MAX_FOUND}. Nothing typed: nothing found.
 */
export const matching = (items: readonly FindItem[], typed: string): readonly FindItem[] => {
  const whole = plain(typed).trim();
  if (whole === "") return [];
  const words = whole.split(/\s+/u);
  const found: { readonly item: FindItem; readonly rank: number }[] = [];
  for (const item of items) {
    const name = plain(item.name);
    const what = plain(item.what);
    let rank = name === whole ? -1 : 0;
    for (const word of words) {
      const own = rankOf(name, what, word);
      if (own === null) {
        rank = Infinity;
        break;
      }
      rank += own;
    }
    if (rank !== Infinity) found.push({ item, rank });
  }
  return found
    .toSorted((a, b) => a.rank - b.rank)
    .slice(0, MAX_FOUND)
    .map(({ item }) => item);
};
