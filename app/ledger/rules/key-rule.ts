/** A key stands once in each plan case: comparisons between cases hang on it. */

interface Keyed {
  readonly id: string;
  readonly planCaseId: string;
  readonly key: string;
}

const counts = new WeakMap<readonly Keyed[], ReadonlyMap<string, number>>();

const placeOf = ({ planCaseId, key }: Keyed) => `${planCaseId}/${key}`;

/** How often each key stands in each case; counted once a list. */
const countKeys = (rows: readonly Keyed[]): ReadonlyMap<string, number> => {
  const known = counts.get(rows);
  if (known !== undefined) return known;
  const made = new Map<string, number>();
  for (const row of rows) made.set(placeOf(row), (made.get(placeOf(row)) ?? 0) + 1);
  counts.set(rows, made);
  return made;
};

/** Whether another row of the list has this row's key in the same plan case. */
export const keyIsTaken = (rows: readonly Keyed[], row: Keyed): boolean => (countKeys(rows).get(placeOf(row)) ?? 0) > 1;
