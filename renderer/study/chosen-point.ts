/** The point of a study that is looked at, in the picture of it: its mark, and which one was pointed at. */
import type { Look, Size } from "../../app/picture/look.ts";
import type { Ink } from "../../app/picture/ink.ts";
import type { Picture } from "../../app/picture/shape.ts";
import { type StudyCurve, studyCurveAxes, studyCurvePicture } from "../../app/picture/study-curve-picture.ts";

const RADIUS = 5;

const marked = (picture: Picture, x: number, y: number, fill: Ink): Picture => ({
  ...picture,
  groups: [...picture.groups, { clip: null, shapes: [{ kind: "dot", x, y, radius: RADIUS, fill, edge: "ink" }] }],
});

/** The curve; `chosen`: the value of its input that is looked at, null: none. */
export const markedCurve = (curve: StudyCurve, chosen: number | null, size: Size, look: Look): Picture => {
  const picture = studyCurvePicture(curve, size, look);
  const near = curve.points.find(({ x }) => x === chosen);
  if (near === undefined) return picture;
  const { x, y } = studyCurveAxes(curve, size, look);
  return marked(picture, x.at(near.x), y.at(near.middle), "accent");
};

/** The value of the input that was pointed at. */
export const curveValueAt = (curve: StudyCurve, size: Size, look: Look, x: number): number =>
  studyCurveAxes(curve, size, look).x.of(x);
