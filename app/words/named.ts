/** What things are called in sentences: their name, or their key where there is no such thing any more. */

export interface Named {
  readonly id: string;
  readonly name: string;
}

/** The name of the row with this key; the key itself where there is none, so that a sentence still says which. */
export const nameIn = (rows: readonly Named[], id: string): string => rows.find((row) => row.id === id)?.name ?? id;
