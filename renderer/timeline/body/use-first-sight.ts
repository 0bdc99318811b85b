/** Scrolls a low timeline so that sorties and a level are in sight when it is shown, and when its height changes. */
import { useLayoutEffect, useRef } from "react";
import { firstSight, isLow } from "../layout/place.ts";
import type { Stage } from "./stage.ts";

/** Not while something is selected: that one stays where the eye has it. */
export const useFirstSight = (scroller: HTMLElement | null, stage: Stage | null, height: number, isChosen: boolean) => {
  const seenAt = useRef<number | null>(null);
  useLayoutEffect(() => {
    if (scroller === null || stage === null || seenAt.current === height) return;
    seenAt.current = height;
    if (!isChosen && isLow(height)) scroller.scrollTo({ top: firstSight(stage.place, height) });
  }, [scroller, stage, height, isChosen]);
};
