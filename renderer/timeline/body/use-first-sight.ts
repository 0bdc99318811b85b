/** Scrolls a low timeline so that sorties and a level are in sight when it is shown and when its height changes. */
import { useLayoutEffect, useRef } from "react";
import { firstSight, isLow } from "../layout/place.ts";
import type { Stage } from "./stage.ts";

/** Where the scroll goes to: what is selected, if it is in this timeline, comes before the rest. */
const topOf = ({ place, rows }: Stage, height: number, chosenId: string | null): number => {
  const chosen = rows.flatMap(({ items }) => items).find(({ id, kind }) => id === chosenId && kind !== "level");
  return chosen === undefined ? firstSight(place, height) : chosen.y - place.lanePad;
};

export const useFirstSight = (
  scroller: HTMLElement | null,
  stage: Stage | null,
  height: number,
  chosenId: string | null,
) => {
  const seenAt = useRef<number | null>(null);
  useLayoutEffect(() => {
    if (scroller === null || stage === null || seenAt.current === height) return;
    seenAt.current = height;
    if (isLow(height)) scroller.scrollTo({ top: topOf(stage, height, chosenId) });
  }, [scroller, stage, height, chosenId]);
};
