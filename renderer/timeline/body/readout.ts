/** The date at the cursor and the hint at the pointer: moved by style alone, so that hovering renders nothing. */
import type { RefObject } from "react";
import type { TimeScale } from "../../charts/time-scale.ts";

export interface Readout {
  readonly show: (x: number, y: number, date: string, words: string | null, scale: TimeScale) => void;
  readonly hide: () => void;
}

interface Parts {
  readonly date: RefObject<HTMLElement | null>;
  readonly hint: RefObject<HTMLElement | null>;
  readonly within: RefObject<HTMLElement | null>;
}

const HINT_WIDTH = 280;

export const createReadout = ({ date, hint, within }: Parts): Readout => ({
  show: (x, y, dateText, words, scale) => {
    if (date.current !== null) {
      const isSeen = x >= scale.left && x <= scale.right;
      date.current.hidden = !isSeen;
      date.current.textContent = dateText;
      const half = 104;
      date.current.style.translate = `${Math.min(Math.max(x, scale.left + half), scale.right - half)}px 0`;
    }
    if (hint.current !== null && within.current !== null) {
      hint.current.hidden = words === null;
      hint.current.textContent = words;
      const scroll = within.current.querySelector(".timeline-scroller")?.scrollTop ?? 0;
      const head = within.current.querySelector(".timeline-head")?.clientHeight ?? 0;
      const left = Math.min(x + 14, within.current.clientWidth - HINT_WIDTH - 8);
      hint.current.style.translate = `${left}px ${y - scroll + head + 16}px`;
    }
  },
  hide: () => {
    if (date.current !== null) date.current.hidden = true;
    if (hint.current !== null) hint.current.hidden = true;
  },
});
