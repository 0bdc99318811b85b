/** The date at the cursor and the hint at the pointer: moved by style alone, so that hovering renders nothing. */
import type { TimeScale } from "../../../app/picture/time-scale.ts";

export interface Readout {
  readonly show: (x: number, y: number, date: string, words: string | null, scale: TimeScale) => void;
  readonly hide: () => void;
}

interface Parts {
  readonly date: HTMLElement;
  readonly hint: HTMLElement;
  readonly head: HTMLElement;
  readonly scroller: HTMLElement;
}

const HINT_WIDTH = 280;
/** Half the width of the date label, as the style sheet has it. */
const DATE_HALF = 104;

export const createReadout = ({ date, hint, head, scroller }: Parts): Readout => ({
  show: (x, y, dateText, words, scale) => {
    date.hidden = x < scale.left || x > scale.right;
    date.textContent = dateText;
    date.style.translate = `${Math.min(Math.max(x, scale.left + DATE_HALF), scale.right - DATE_HALF)}px 0`;
    hint.hidden = words === null;
    hint.textContent = words;
    const left = Math.min(x + 14, scroller.clientWidth - HINT_WIDTH - 8);
    const top = y - scroller.scrollTop + head.clientHeight + 16;
    const highest = head.clientHeight + scroller.clientHeight - 80;
    hint.style.translate = `${left}px ${Math.min(top, highest)}px`;
  },
  hide: () => {
    date.hidden = true;
    hint.hidden = true;
  },
});
