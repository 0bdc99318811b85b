/** What every part of the layout needs to know of the screen: the time axis, the unit, how wide a text is. */
import type { Measure } from "../../../app/picture/shape.ts";
import type { TimeScale } from "../../../app/picture/time-scale.ts";
import type { MassUnit } from "../../format/mass.ts";

/** How far names in the lanes may reach into the right gutter, which only the charts use. */
export const NAME_REACH = 136;

export interface ViewFrame {
  readonly scale: TimeScale;
  readonly unit: MassUnit;
  readonly measure: Measure;
}

/** The text cut with "…" to a width; empty if not even a few letters have room. */
export const fitted = (text: string, width: number, measure: (text: string) => number): string => {
  if (measure(text) <= width) return text;
  let low = 0;
  let high = text.length;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (measure(`${text.slice(0, middle).trimEnd()}…`) <= width) low = middle;
    else high = middle - 1;
  }
  return low < 3 ? "" : `${text.slice(0, low).trimEnd()}…`;
};
