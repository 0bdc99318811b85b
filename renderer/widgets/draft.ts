/** Text under the pen: what is typed before it is committed, told apart from what is in the plan. */
import { type KeyboardEvent, useState } from "react";

export interface Draft {
  readonly text: string;
  /** What is wrong with what is typed; null: nothing, or nothing was typed. */
  readonly fault: string | null;
  readonly isTouched: boolean;
  readonly type: (text: string) => void;
  /** Takes what is typed if it can be taken; what cannot stays, with its fault. */
  readonly commit: () => void;
  /** Back to what the plan says. */
  readonly revert: () => void;
}

/** `shown` is the committed value as text; `check` answers a fault in words, or null; `take` commits. */
export const useDraft = (
  shown: string,
  check: (text: string) => string | null,
  take: (text: string) => void,
): Draft => {
  const [typed, setTyped] = useState<string | null>(null);
  const isTouched = typed !== null && typed !== shown;
  return {
    text: typed ?? shown,
    isTouched,
    fault: isTouched ? check(typed) : null,
    type: setTyped,
    commit: () => {
      if (isTouched && check(typed) !== null) return;
      setTyped(null);
      if (isTouched) take(typed);
    },
    revert: () => setTyped(null),
  };
};

/** The keys of a field: Enter commits, Escape goes back, arrows step where there is a step (Shift: by ten). */
export const draftKeys =
  (draft: Draft, step?: (by: number) => void) =>
  (event: KeyboardEvent): void => {
    if (event.key === "Enter") draft.commit();
    else if (event.key === "Escape" && draft.isTouched) {
      // The dialog around the field closes by the next Escape, not by this one.
      event.stopPropagation();
      draft.revert();
    } else if (step !== undefined && (event.key === "ArrowUp" || event.key === "ArrowDown")) {
      event.preventDefault();
      step((event.key === "ArrowUp" ? 1 : -1) * (event.shiftKey ? 10 : 1));
    }
  };
