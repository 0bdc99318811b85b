/**
 * How long the hand's work takes somebody who knows the way, by the keystroke-level model: S. K. Card, T. P. Moran and
 * A. Newell, "The keystroke-level model for user performance time with interactive systems", Communications of the ACM
 * 23 (7), 1980, pages 396–410. The times were read in a reproduction of its table of operators (teaching pages of the
 * University of Hamburg on GOMS), not in the paper itself. The model knows no errors, no looking up of the figures that
 * are typed, and no thinking about what they should be; waiting for the program is left out too.
 */

/** K, s: figures and names are no running prose, so each is a key among "random letters" (0.20 s in running text). */
const KEY_S = 0.5;
/** K, s: the button of the mouse. */
const BUTTON_S = 0.2;
/** P, s: pointing with the mouse at something on the screen. */
const POINT_S = 1.1;
/** H, s: the hand from the keys to the mouse, or back. */
const HOME_S = 0.4;
/** M, s: preparing in the mind. */
const MENTAL_S = 1.35;

export interface HandWork {
  /** Keys pressed. */
  readonly keys: number;
  /** Presses of the pointer, each upon a pointing. */
  readonly clicks: number;
  /** Changes between keys and pointer. */
  readonly homings: number;
  /** Fields typed into. */
  readonly fields: number;
}

/**
 * Seconds. M stands before every field and before every press: the model's rules place one before each command and each
 * argument, and then take some away (what is foreseen in the step before); none is taken away here.
 */
export const handSeconds = ({ keys, clicks, homings, fields }: HandWork): number =>
  keys * KEY_S + clicks * (POINT_S + BUTTON_S) + homings * HOME_S + (fields + clicks) * MENTAL_S;
