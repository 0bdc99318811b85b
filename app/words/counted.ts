/** Counts and lists in sentences. */

/** "1 sortie", "3 sorties", "no sorties". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count === 0 ? "no" : count} ${count === 1 ? one : many}`;

/** "A", "A and B", "A, B and C"; of more than `most`, the first ones "and 4 more". */
export const listed = (parts: readonly string[], most = Infinity): string => {
  const shown = parts.length > most ? [...parts.slice(0, most), `${parts.length - most} more`] : parts;
  return shown.length < 2 ? shown.join("") : `${shown.slice(0, -1).join(", ")} and ${shown.at(-1) ?? ""}`;
};

/** With its first letter in upper case, for the beginning of a sentence. */
export const capitalised = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1);
