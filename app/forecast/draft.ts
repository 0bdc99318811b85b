/** Columns that grow while a plan is compiled, and their turning into typed arrays. */

/** Column name → its numbers, row by row. */
export type Columns<N extends string> = Record<N, number[]>;

export const columns = <N extends string>(...names: readonly N[]): Columns<N> => {
  const made = {} as Columns<N>;
  for (const name of names) made[name] = [];
  return made;
};

/** Items of a list by their id. */
export const byId = <T extends { readonly id: string }>(list: readonly T[]): ReadonlyMap<string, T> =>
  new Map(list.map((item) => [item.id, item]));

/** A copy sorted by id: the order of rows in a plan then changes nothing. */
export const sortedById = <T extends { readonly id: string }>(list: readonly T[]): readonly T[] =>
  list.toSorted((a, b) => (a.id < b.id ? -1 : 1));
