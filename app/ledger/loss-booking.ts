/** What the books wrote off at a reading or a closing: loss of the time before it, whichever month that lies in. */

/** One entry in force that books loss at a depot. */
export interface LossBooking {
  readonly at: number;
  readonly depotId: string;
  readonly propellantId: string;
  /** Below 0: found again. Whole grams. */
  readonly boilOffGrams: number;
  readonly unaccountedGrams: number;
  /** Tanks of that depot and propellant that the entry touches. */
  readonly tankIds: readonly string[];
}
