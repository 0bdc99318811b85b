/** What the books hold of one depot, propellant and period: sums that a store takes from the journal, whole grams. */

/**
 * A period runs from the end of `fromAt` (exclusive) to the end of `untilAt` (inclusive), so that a closing booked at the
 * very end of a month belongs to it. Counter-entries cancel what they take back.
 */
export interface StatementSums {
  readonly fromAt: number;
  readonly untilAt: number;
  readonly depotId: string;
  readonly propellantId: string;
  /** In all tanks of the depot at the end of `fromAt`, summed forward from the first record. */
  readonly openingGrams: number;
  /** Came into the depot's keeping from outside, handover loss included; and left it. Entry by entry, each ≥ 0. */
  readonly receivedGrams: number;
  readonly drawnGrams: number;
  /** Posted to the depot's accounts of these kinds. */
  readonly boilOffGrams: number;
  readonly handoverLossGrams: number;
  readonly ventedGrams: number;
  /** Above 0: the gauge found less than the books; below: more. */
  readonly unaccountedGrams: number;
  /** In all tanks at the end of `untilAt`, taken back from the accounts' balances. */
  readonly closingGrams: number;
}
