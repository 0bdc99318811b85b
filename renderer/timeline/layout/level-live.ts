/** The parts of a level chart that follow a drag: the forecast curve, the compared one, and the names at the line's end. */
import { type Curve, type Jump, curve, levelOf } from "../../../app/picture/curve.ts";
import { dodge } from "../../../app/picture/label-placement.ts";
import type { MassScale } from "../../../app/picture/mass-scale.ts";
import { type Ink, propellantInk } from "../../../app/picture/ink.ts";
import { type Shape, line } from "../../../app/picture/shape.ts";
import { formatMass } from "../../format/mass.ts";
import type { LevelSource } from "../model/level-source.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { areaUnder } from "./level-still.ts";
import { type ChartPlace, GUTTER } from "./place.ts";
import { type ViewFrame, fitted } from "./view-frame.ts";

/** Half the length of the tick that ends an upright move. */
const SERIF = 3;

/** A short tick where each upright move ends: above at a delivery, below at a draw. Dense ones keep their distance. */
const serifs = (jumps: readonly Jump[], axis: MassScale, ink: Ink): readonly Shape[] => {
  const shapes: Shape[] = [];
  let lastX = -Infinity;
  for (const jump of jumps) {
    const y = axis.y(jump.toKg);
    if (Math.abs(y - axis.y(jump.fromKg)) < 5 || jump.x - lastX < 2 * SERIF + 2) continue;
    shapes.push(line(jump.x - SERIF, y, jump.x + SERIF, y, ink, 1.5));
    lastX = jump.x;
  }
  return shapes;
};

/** The forecast: a lighter line over a ruled area, so that it is told from the past by texture as well. */
export const levelForecast = (source: LevelSource, place: ChartPlace, axis: MassScale, frame: ViewFrame) => {
  const ink = propellantInk(source.propellant.position);
  const ahead: Curve = curve(source.forecast, frame.scale, axis.y);
  if (ahead.points.length < 4) return [];
  const under = areaUnder(ahead.points, place.plot.y + place.plot.height);
  const shapes: readonly Shape[] = [
    { kind: "area", points: under, ink, texture: "ruled", alpha: 0.2 },
    { kind: "path", points: ahead.points, ink, width: 1.5 },
    ...serifs(ahead.jumps, axis, ink),
  ];
  return shapes;
};

/** The case compared with: the same curve, thinner and dotted. */
export const levelCompared = (source: LevelSource, axis: MassScale, frame: ViewFrame): readonly Shape[] => {
  if (source.compare === null) return [];
  const { points } = curve(source.compare, frame.scale, axis.y);
  return points.length < 4 ? [] : [{ kind: "path", points, ink: "ink-soft", width: 1.25, dash: [1.5, 2.5] }];
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

interface EndLabel {
  readonly text: string;
  readonly at: number;
  readonly ink: Ink;
  readonly isBold: boolean;
  /** The first labels keep their place when there is no room for all. */
  readonly rank: number;
}

const LABEL_HEIGHT = 14;
const LABEL_WIDTH = GUTTER.right - 20;

const endLabels = (
  model: TimelineModel,
  source: LevelSource,
  axis: MassScale,
  frame: ViewFrame,
): readonly EndLabel[] => {
  const mass = (massKg: number): string => formatMass(massKg, frame.unit);
  const labels: EndLabel[] = [];
  const add = (text: string, massKg: number, rank: number, isBold = false, ink: Ink = "ink-soft"): void => {
    labels.push({ text, at: axis.y(massKg), ink, isBold, rank });
  };
  const here = Math.min(frame.scale.untilAt, model.whole.untilAt);
  const level = levelOf(source.forecast, here) ?? levelOf(source.past, here);
  if (level !== null) {
    // A long name is cut, its figure is not.
    const figure = ` ${mass(level)}`;
    const width = (text: string): number => frame.measure(`${text}${figure}`, 12, true);
    add(`${fitted(source.propellant.name, LABEL_WIDTH, width)}${figure}`, level, 0, true, "ink");
  }
  const other = source.compare === null ? null : levelOf(source.compare, here);
  if (other !== null && level !== null && Math.abs(other - level) > 0.5)
    add(model.compareName ?? "the other case", other, 2);
  if (source.fillKg > 0) add(`maximum fill ${mass(source.fillKg)}`, source.fillKg, 1);
  if (source.reserveKg > source.heelKg) add(`reserve ${mass(source.reserveKg)}`, source.reserveKg, 1);
  if (source.heelKg > 0) add(`heel ${mass(source.heelKg)}`, source.heelKg, 3);
  return labels;
};

/** Names in the right gutter, at their lines' ends; moved apart where they would touch, with a leader to the line. */
export const levelNames = (
  model: TimelineModel,
  source: LevelSource,
  place: ChartPlace,
  axis: MassScale,
  frame: ViewFrame,
): readonly Shape[] => {
  const right = place.plot.x + place.plot.width;
  const top = place.top + 2;
  const bottom = place.top + place.height - 2;
  const most = Math.max(1, Math.floor((bottom - top) / LABEL_HEIGHT));
  const labels = [...endLabels(model, source, axis, frame)].sort((a, b) => a.rank - b.rank).slice(0, most);
  const middles = dodge(
    labels.map((label) => ({ at: label.at, size: LABEL_HEIGHT })),
    top,
    bottom,
  );
  return labels.flatMap((label, index): readonly Shape[] => {
    const y = middles[index] ?? label.at;
    const ink = label.isBold ? propellantInk(source.propellant.position) : "hairline";
    const text = fitted(label.text, LABEL_WIDTH, (candidate) => frame.measure(candidate, 12, label.isBold));
    return [
      { kind: "path", points: [right + 1, label.at, right + 5, label.at, right + 11, y, right + 13, y], ink, width: 1 },
      { kind: "text", x: right + 16, y, text, ink: label.ink, size: 12, anchor: "start", isBold: label.isBold },
    ];
  });
};
