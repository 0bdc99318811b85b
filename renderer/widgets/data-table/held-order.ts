/** The order of rows while somebody writes in them: a row that is sorted by what is typed must not run from under the hand. */
import { useState } from "react";

interface Held<T> {
  readonly rows: readonly T[];
  readonly isHeld: boolean;
  /** The order as it stands is kept until it is let go; new rows come after the last. */
  readonly hold: () => void;
  readonly letGo: () => void;
}

/** Rows in the order in which they stood when they were held; in their own where they are not. */
export const inHeldOrder = <T extends { readonly id: string }>(
  rows: readonly T[],
  ids: readonly string[],
): readonly T[] => {
  const place = new Map(ids.map((id, index) => [id, index]));
  const at = (row: T): number => place.get(row.id) ?? ids.length;
  return rows.toSorted((a, b) => at(a) - at(b));
};

export const useHeldOrder = <T extends { readonly id: string }>(sorted: readonly T[]): Held<T> => {
  const [ids, setIds] = useState<readonly string[] | null>(null);
  return {
    rows: ids === null ? sorted : inHeldOrder(sorted, ids),
    isHeld: ids !== null,
    hold: () => setIds((kept) => kept ?? sorted.map(({ id }) => id)),
    letGo: () => setIds(null),
  };
};
