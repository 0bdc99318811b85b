/** Which texts a person can read as they stand: no name of nothing, nothing hidden that turns or splits what is beside it. */

/** ZWNJ and ZWJ between letters belong to the spelling of Persian and of Indic scripts, and join emoji; elsewhere they hide. */
const JOINER_IN_WORD = /(?<=[\p{L}\p{M}\p{Emoji}])[\u200c\u200d](?=[\p{L}\p{M}\p{Emoji}])/gu;
/** Format characters (zero width, direction), line and paragraph separators, and the blank letters of Hangul. */
const HIDDEN = /[\p{Cf}\p{Zl}\p{Zp}\u115f\u1160\u3164\uffa0]/u;
const TAGS_OF_FLAGS = /\u{1f3f4}[\u{e0020}-\u{e007f}]+/gu;
const SEEN = /[^\s\p{Z}\p{C}\p{M}\u2800]/u;

/** Whether there is anything to be seen in it. */
export const isSeen = (text: string): boolean => SEEN.test(text);

/** Whether every character of it shows, and stays in its own place. */
export const isOpen = (text: string): boolean =>
  !HIDDEN.test(text.replaceAll(JOINER_IN_WORD, "").replaceAll(TAGS_OF_FLAGS, ""));

/** Whether it is text at all: half a surrogate pair cannot be written to a file. */
export const isWhole = (text: string): boolean => text.isWellFormed();
