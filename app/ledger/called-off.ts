/** A flight or sortie that was deleted: what the calendars that have it must still be told. */
export interface CalledOff {
  readonly kind: "flight" | "sortie";
  readonly key: string;
  readonly name: string;
  /** When it was to begin and end, ms UTC. */
  readonly startAt: number;
  readonly endAt: number;
  /** A flight's time at the port; 0 for a sortie. */
  readonly berthDays: number;
}
