/** Text that a spreadsheet would run as a formula, made harmless; one rule for every way out of the program. */

/**
 * A text that starts with = + - @, a tab or a return is run by spreadsheets; an apostrophe before it stops that. Numbers
 * written by the program itself are not given to this.
 */
export const neutralise = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);
