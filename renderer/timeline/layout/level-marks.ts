/** What the timeline adds to a level chart: its left gutter, what the check finds on it, the names at its lines, the old plan in a drag. */
import { fitted } from "../../../app/picture/fitted.ts";
import { curve } from "../../../app/picture/curve.ts";
import { propellantInk } from "../../../app/picture/ink.ts";
import { levelFigures } from "../../../app/picture/level/level-ground.ts";
import { screenLevel } from "../../../app/picture/level/level-look.ts";
import { levelNames } from "../../../app/picture/level/level-names.ts";
import type { LevelSource } from "../../../app/picture/level/level-source.ts";
import type { MassScale, MassTick } from "../../../app/picture/mass-scale.ts";
import { type Shape, line, words } from "../../../app/picture/shape.ts";
import { formatMass } from "../../format/mass.ts";
import { withUnit } from "../../format/number.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { type ChartPlace, GUTTER } from "./place.ts";
import type { ViewFrame } from "./view-frame.ts";

/** The propellant's name, and the figures of the mass axis that have room beside it. */
export const levelGutter = (
  source: LevelSource,
  place: ChartPlace,
  axis: MassScale,
  frame: ViewFrame,
): readonly Shape[] => {
  const { x: left } = place.plot;
  const ink = propellantInk(source.propellant.position);
  const titleY = place.plot.y + 2;
  // It keeps to the gutter: what lies above the maximum fill is the plot's.
  const name = fitted(source.propellant.name, left - 26, (text) => frame.measure(text, 13, true));
  const nameEnd = 22 + frame.measure(name, 13, true);
  const labelled = (tick: MassTick): string => withUnit(tick.label, axis.unit);
  const kept = axis.ticks.filter(
    (tick) => Math.abs(tick.y - titleY) > 13 || left - 8 - frame.measure(labelled(tick), 11) > nameEnd + 6,
  );
  return [
    ...levelFigures(kept, axis.unit, place.plot, screenLevel),
    { kind: "rect", x: 12, y: titleY - 6, width: 4, height: 12, fill: ink, edge: null, corner: 1 },
    words(22, titleY, name, { size: 13, ink: "ink", isBold: true, halo: "sheet" }),
  ];
};

/** The plan as it stood before the drag. */
export const levelGhost = (source: LevelSource, axis: MassScale, frame: ViewFrame): readonly Shape[] => {
  const { points } = curve(source.forecast, frame.scale, axis.y);
  return points.length < 4 ? [] : [{ kind: "path", points, ink: "ink-soft", width: 1.25, alpha: 0.55 }];
};

/** Where the forecast is below the reserve, a bar along the reserve line. */
export const belowReserve = (
  model: TimelineModel,
  source: LevelSource,
  axis: MassScale,
  frame: ViewFrame,
): readonly Shape[] =>
  model.glance.findings.flatMap((finding) => {
    if (finding.kind !== "below reserve") return [];
    if (finding.depotId !== model.depot.id || finding.propellantId !== source.propellant.id) return [];
    const left = Math.max(frame.scale.left, frame.scale.x(finding.fromAt));
    const right = Math.min(frame.scale.right, frame.scale.x(finding.untilAt ?? model.whole.untilAt));
    const y = axis.y(source.reserveKg);
    return right <= left ? [] : [line(left, y, Math.max(right, left + 2), y, "status-thin", 3)];
  });

/** What did not fit at a delivery, written where the curve meets the maximum fill, as far as there is room. */
export const overflowNotes = (
  model: TimelineModel,
  source: LevelSource,
  axis: MassScale,
  frame: ViewFrame,
): readonly Shape[] => {
  let lastEnd = -Infinity;
  return model.glance.findings.flatMap((finding): readonly Shape[] => {
    if (finding.kind !== "overflow" || finding.propellantId !== source.propellant.id) return [];
    if (!model.allFlights.some((flight) => flight.id === finding.flightId && flight.depotId === model.depot.id))
      return [];
    const x = frame.scale.x(finding.at);
    const text = `${formatMass(finding.notTakenKg, frame.unit)} ${finding.fate === "vented" ? "vented" : "not taken"}`;
    const width = frame.measure(text, 11);
    if (x < frame.scale.left || x + 6 + width > frame.scale.right || x + 6 < lastEnd + 8) return [];
    lastEnd = x + 6 + width;
    const y = axis.y(source.fillKg);
    return [
      line(x, y - 6, x, y, "status-thin", 1.5),
      { kind: "text", x: x + 6, y: y - 7, text, ink: "ink", size: 11, anchor: "start", halo: "sheet" },
    ];
  });
};

/** Names in the right gutter, each with the mass of its line. */
export const namesBeside = (
  model: TimelineModel,
  source: LevelSource,
  place: ChartPlace,
  axis: MassScale,
  frame: ViewFrame,
): readonly Shape[] =>
  levelNames(
    source,
    axis,
    {
      at: Math.min(frame.scale.untilAt, model.whole.untilAt),
      unit: frame.unit,
      curve: source.propellant.name,
      compared: { name: model.compareName ?? "the other case", hasMass: false },
    },
    {
      right: place.plot.x + place.plot.width,
      top: place.top + 2,
      bottom: place.top + place.height - 2,
      width: GUTTER.right - 20,
    },
    frame.measure,
    screenLevel,
  );
