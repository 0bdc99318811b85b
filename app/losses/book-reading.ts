/** The two readings of one book: loss in the month in which it was booked, or in which it happened. */

export const bookReadings = ["as happened", "as booked"] as const;
export type BookReading = (typeof bookReadings)[number];

/** What each means, in a sentence for screen and paper. */
export const bookReadingAdvice: { readonly [R in BookReading]: string } = {
  "as happened":
    "As happened: what a reading or closing wrote off is shared over the time since the level before it, by the rates in force; loss since the last level that was booked is not in it yet.",
  "as booked":
    "As booked: loss stands in the month of the reading or closing that wrote it off. An entry at exactly midnight belongs to the month that ends there.",
};
