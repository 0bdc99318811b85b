/** The point of a study that is looked at, in the picture of it: its mark, and which one was pointed at. */
import type { Look, Size } from "../../app/picture/look.ts";
import type { Ink } from "../../app/picture/ink.ts";
import type { Picture, Shape } from "../../app/picture/shape.ts";
import { studyMapPlaces, type StudyMapShown } from "../../app/picture/study-map-axes.ts";
import { studyMapPicture } from "../../app/picture/study-map-picture.ts";
import { type StudyCurve, studyCurveAxes, studyCurvePicture } from "../../app/picture/study-curve-picture.ts";

const RADIUS = 5;

const marked = (picture: Picture, places: readonly (readonly [number, number])[], fill: Ink): Picture => {
  const shapes = places.map(([x, y]): Shape => ({ kind: "dot", x, y, radius: RADIUS, fill, edge: "ink" }));
  return { ...picture, groups: [...picture.groups, { clip: null, shapes }] };
};

/** The curve; `chosen`: the value of its input that is looked at, null: none. */
export const markedCurve = (curve: StudyCurve, chosen: number | null, size: Size, look: Look): Picture => {
  const picture = studyCurvePicture(curve, size, look);
  const near = curve.points.find(({ x }) => x === chosen);
  if (near === undefined) return picture;
  const { x, y } = studyCurveAxes(curve, size, look);
  return marked(picture, [[x.at(near.x), y.at(near.middle)]], "accent");
};

/** The value of the input that was pointed at. */
export const curveValueAt = (curve: StudyCurve, size: Size, look: Look, x: number): number =>
  studyCurveAxes(curve, size, look).x.of(x);

/** The maps; `chosen`: the row of the point that is looked at, null: none. */
export const markedMap = (shown: StudyMapShown, chosen: number | null, size: Size, look: Look): Picture => {
  const places = studyMapPlaces(shown, size, look).flatMap(({ panel, x, y }) =>
    panel.slice.cells.flatMap((cell) => (cell.row === chosen ? [[x.at(cell.x), y.at(cell.y)] as const] : [])),
  );
  return marked(studyMapPicture(shown, size, look), places, "raised");
};

/** The row of the point nearest to what was pointed at; null: there is no map. */
export const mapRowAt = (shown: StudyMapShown, size: Size, look: Look, atX: number, atY: number): number | null => {
  const place = studyMapPlaces(shown, size, look).find(
    ({ box }) => atX >= box.left && atX <= box.right && atY >= box.top && atY <= box.bottom,
  );
  let best: number | null = null;
  let least = Infinity;
  for (const cell of place?.panel.slice.cells ?? []) {
    const distance = Math.hypot((place?.x.at(cell.x) ?? 0) - atX, (place?.y.at(cell.y) ?? 0) - atY);
    if (distance >= least) continue;
    least = distance;
    best = cell.row;
  }
  return best;
};
