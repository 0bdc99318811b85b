/** Text that a spreadsheet would run as a formula, made harmless; one rule for every way out of the program, and back. */

/**
 * What spreadsheets take for the beginning of a formula: = + - @, also full-width, also behind blanks of any width, which
 * some of them strip first; and a tab or a return, behind which another cell would begin.
 */
const RUNS = /^[\s\p{Z}\p{Cf}]*[=+\-@＝＋－＠]|^[\t\r]/u;
const GUARDED = /^'+/;

const isRun = (text: string): boolean => RUNS.test(text);

/** An apostrophe before it stops that. Numbers written by the program itself are not given to this. */
export const neutralise = (text: string): string => (isRun(text) ? `'${text}` : text);

/** The same for a table that is to be brought in again: a text that has apostrophes of its own there gets one more. */
export const guarded = (text: string): string => (isRun(text.replace(GUARDED, "")) ? `'${text}` : text);

/** What `guarded` was given; the apostrophe is not part of the text. */
export const withoutGuard = (text: string): string =>
  GUARDED.test(text) && isRun(text.replace(GUARDED, "")) ? text.slice(1) : text;
