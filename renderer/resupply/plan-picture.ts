/**
 * The present plan and the proposal in one picture: flights that stay, come and go; the statuses of the sorties under both;
 * and for each propellant of a depot both level curves over one time axis.
 */
import { missingCase } from "../../app/ground/missing-case.ts";
import type { Entity } from "../../app/entity/entities.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import type { FlightChange } from "../../app/resupply/answer.ts";
import { type Ink, propellantInk } from "../../app/picture/ink.ts";
import { levelCompared, levelForecast } from "../../app/picture/level/level-curves.ts";
import { levelAxis, levelFigures, levelGround } from "../../app/picture/level/level-ground.ts";
import { screenLevel } from "../../app/picture/level/level-look.ts";
import { levelNames } from "../../app/picture/level/level-names.ts";
import { type LevelSource, levelSources } from "../../app/picture/level/level-source.ts";
import { line, type Measure, type Picture, type Shape } from "../../app/picture/shape.ts";
import { type TimeScale, timeScale } from "../../app/picture/time-scale.ts";
import { timeTicks } from "../../app/picture/time-ticks.ts";
import type { MassUnit } from "../format/mass.ts";
import type { CaseForecast } from "../state/case-forecast.ts";

export interface PlanPictureInput {
  readonly present: CaseForecast;
  readonly proposed: CaseForecast;
  readonly changes: readonly FlightChange[];
  readonly depotId: string;
  readonly unit: MassUnit;
}

const LEFT = 92;
const RIGHT = 154;
const ROW = 22;
const HEAD = 8;
const SEAM = 10;
const PANEL = 108;
const PANEL_GAP = 20;
const AXIS = 38;
/** Pixels of a letter of 11 pixels, about. */
const LETTER = 6.2;

const lanes = ["Flights", "Added", "Present", "Proposal"] as const;
const lanesBottom = HEAD + lanes.length * ROW;

/** The proposal as the forecast, the present plan as what it is compared with. */
const levelsOf = ({ present, proposed, depotId }: PlanPictureInput): readonly LevelSource[] =>
  levelSources(
    {
      plan: present.plan,
      past: [],
      readings: [],
      forecast: proposed.forecast.levels,
      compare: present.forecast.levels,
      findings: [],
      risk: null,
    },
    depotId,
  );

export const planPictureHeight = (input: PlanPictureInput): number =>
  lanesBottom + SEAM + levelsOf(input).length * (PANEL + PANEL_GAP) + AXIS;

const words = (
  x: number,
  y: number,
  text: string,
  anchor: "start" | "middle" | "end",
  ink: Ink = "ink-soft",
): Shape => ({
  kind: "text",
  x,
  y,
  text,
  ink,
  size: 11,
  anchor,
  halo: "sheet",
});

const rowMiddle = (row: number): number => HEAD + row * ROW + ROW / 2;

type FlightLook = "planned" | "added" | "left out";

/** A shaft from departure to arrival, and a block at the port; what goes is dashed, what comes is full. */
const flightShapes = (flight: Entity<"flight">, scale: TimeScale, row: number, look: FlightLook): readonly Shape[] => {
  const y = rowMiddle(row);
  const x = scale.x(flight.arriveAt);
  const width = Math.max(4, scale.x(flight.arriveAt + flight.berthDays * DAY_MS) - x);
  const box = { x, y: y - 6, width, height: 12, corner: 2 };
  const shaft = (ink: Ink, dash?: readonly number[]): Shape => line(scale.x(flight.departAt), y, x, y, ink, 1.25, dash);
  switch (look) {
    case "planned":
      return [shaft("ink-soft"), { kind: "rect", ...box, fill: "raised", edge: "ink-soft", edgeWidth: 1.25 }];
    case "added":
      return [shaft("accent"), { kind: "rect", ...box, fill: "accent", edge: "accent" }];
    case "left out":
      return [
        shaft("ink-soft", [2, 3]),
        { kind: "rect", ...box, fill: null, edge: "ink-soft", dash: [2, 2] },
        line(x - 2, y + 8, x + width + 2, y - 8, "ink", 1.5),
      ];
    default:
      return missingCase(look);
  }
};

const laneShapes = (input: PlanPictureInput, scale: TimeScale, right: number): readonly Shape[] => {
  const { present, proposed, changes, depotId } = input;
  const leftOut = new Set(changes.filter(({ kind }) => kind === "left out").map(({ flight }) => flight.id));
  const added = changes
    .filter(({ kind, flight }) => kind === "added" && flight.depotId === depotId)
    .map(({ flight }) => flight);
  const planned = present.plan.flights.filter(
    ({ depotId: to, status, arriveAt, berthDays }) =>
      to === depotId && status !== "cancelled" && status !== "lost" && arriveAt + berthDays * DAY_MS > scale.fromAt,
  );
  let lastEnd = -Infinity;
  const names = added.flatMap((flight): readonly Shape[] => {
    const x = scale.x(flight.arriveAt + flight.berthDays * DAY_MS) + 6;
    if (x < lastEnd || x + flight.name.length * LETTER > right + RIGHT) return [];
    lastEnd = x + flight.name.length * LETTER + 10;
    const next = added.find(({ departAt, id }) => id !== flight.id && departAt >= flight.arriveAt);
    if (next !== undefined && scale.x(next.departAt) < lastEnd) return [];
    return [words(x, rowMiddle(1), flight.name, "start", "ink")];
  });
  const statuses = ({ plan, glance }: CaseForecast, row: number): readonly Shape[] =>
    glance.sorties.flatMap((sortie): readonly Shape[] => {
      const own = plan.sorties.find(({ id }) => id === sortie.sortieId);
      if (own === undefined || own.depotId !== depotId) return [];
      return [{ kind: "status", x: scale.x(own.loadAt), y: rowMiddle(row), radius: 5.5, status: sortie.status }];
    });
  return [
    ...lanes.map((title, row) => words(8, rowMiddle(row), title, "start", "ink")),
    ...lanes.map((_, row) =>
      line(0, HEAD + (row + 1) * ROW + 0.5, right + RIGHT, HEAD + (row + 1) * ROW + 0.5, "rule"),
    ),
    ...planned.flatMap((flight) => flightShapes(flight, scale, 0, leftOut.has(flight.id) ? "left out" : "planned")),
    ...added.flatMap((flight) => flightShapes(flight, scale, 1, "added")),
    ...names,
    ...statuses(present, 2),
    ...statuses(proposed, 3),
    words(right + 16, rowMiddle(2), "status of the sorties", "start"),
  ];
};

const measure: Measure = (text, size) => (text.length * LETTER * size) / 11;

const panelShapes = (source: LevelSource, top: number, scale: TimeScale, unit: MassUnit): readonly Shape[] => {
  const plot = { x: scale.left, y: top + 4, width: scale.right - scale.left, height: PANEL - 4 };
  const axis = levelAxis(source, plot, unit);
  const names = { at: scale.untilAt, unit, curve: "proposal", compared: { name: "present", hasMass: true } };
  const room = { right: scale.right, top: top - 6, bottom: top + PANEL + 6, width: RIGHT - screenLevel.nameGap };
  const ink = propellantInk(source.propellant.position);
  return [
    ...levelGround(source, plot, axis, screenLevel),
    ...levelForecast(source, plot, axis, scale, screenLevel),
    ...levelCompared(source, axis, scale, screenLevel),
    ...levelFigures(axis.ticks, axis.unit, plot, screenLevel),
    { kind: "rect", x: 0, y: top - 8, width: 4, height: 12, fill: ink, edge: null, corner: 1 },
    { ...words(8, top - 2, source.propellant.name, "start", "ink"), isBold: true } as Shape,
    ...levelNames(source, axis, names, room, measure, screenLevel),
  ];
};

const axisShapes = (scale: TimeScale, top: number, bottom: number): readonly Shape[] => {
  const { fine, coarse } = timeTicks(scale);
  return [
    ...fine.map(({ x }) => line(x, bottom, x, bottom + 4, "hairline")),
    ...fine
      .filter(({ x }) => x > scale.left + 4 && x < scale.right - 4)
      .map(({ x, label }) => words(x, bottom + 12, label, "middle")),
    ...coarse
      .filter(({ x, label }, place) => x + label.length * LETTER + 6 < (coarse[place + 1]?.x ?? scale.right))
      .map(({ x, label }) => ({ ...words(x, bottom + 28, label, "start"), isBold: true }) as Shape),
    ...coarse.slice(1).map(({ x }) => line(Math.round(x) + 0.5, top, Math.round(x) + 0.5, bottom, "rule")),
  ];
};

export const planPicture = (input: PlanPictureInput, { width, height }: { width: number; height: number }): Picture => {
  const { plan } = input.present;
  const levels = levelsOf(input);
  const right = Math.max(LEFT + 60, width - RIGHT);
  const scale = timeScale(plan.asOfAt, Math.max(plan.horizonAt, plan.asOfAt + 1), LEFT, right);
  const first = lanesBottom + SEAM;
  const bottom = first + levels.length * (PANEL + PANEL_GAP);
  const arrivals = input.changes
    .filter(({ kind, flight }) => kind === "added" && flight.depotId === input.depotId)
    .map(({ flight }) => scale.x(flight.arriveAt));
  const clip = { x: LEFT, y: 0, width: right - LEFT, height };
  const isDrawn = (shape: Shape): boolean => shape.kind !== "text";
  const inLanes = laneShapes(input, scale, right);
  // The lanes' rules are as wide as the picture; all else of them ends with the plot.
  const isRule = (shape: Shape): boolean => shape.kind === "path" && shape.points[0] === 0;
  return {
    width,
    height,
    groups: [
      { clip: null, shapes: axisShapes(scale, 0, bottom) },
      { clip: null, shapes: inLanes.filter((shape) => isRule(shape) || !isDrawn(shape)) },
      { clip, shapes: inLanes.filter((shape) => isDrawn(shape) && !isRule(shape)) },
      { clip, shapes: arrivals.map((x) => line(x, rowMiddle(1) + 6, x, bottom, "accent", 1, [1, 3])) },
      ...levels.map((level, place) => ({
        clip: null,
        shapes: panelShapes(level, first + PANEL_GAP + place * (PANEL + PANEL_GAP), scale, input.unit),
      })),
    ],
  };
};
