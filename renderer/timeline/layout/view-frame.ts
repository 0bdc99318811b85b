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
