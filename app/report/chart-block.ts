/** The one way in which a picture comes into a report. */
import { rounded } from "../picture/rounded.ts";
import type { Picture } from "../picture/shape.ts";
import type { Chart } from "./model.ts";

export interface ChartInput {
  /** Unique within the report. */
  readonly id: string;
  readonly caption: string;
  /** For those who do not see it. */
  readonly description: string;
  readonly picture: Picture;
}

export const chartBlock = ({ id, caption, description, picture }: ChartInput): Chart => ({
  kind: "chart",
  id,
  caption,
  description,
  picture: rounded(picture),
});
