/** The cursor: an upright line at an instant with the mass of every propellant there; and what is held, in dates. */
import { levelOf } from "../../../app/picture/curve.ts";
import { propellantInk } from "../../../app/picture/ink.ts";
import { type Group, type Shape, line } from "../../../app/picture/shape.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import type { SupplyStatus } from "../../../app/supply/answer.ts";
import { formatInstant } from "../../format/instant.ts";
import { formatMass } from "../../format/mass.ts";
import { formatPercent } from "../../format/number.ts";
import type { Grab } from "../drag/move.ts";
import { type TimelineModel, berthEndAt } from "../model/timeline-model.ts";
import { supplyWords } from "../words/item-words.ts";
import { flightBar, sortieBar } from "./bar.ts";
import { levelAxis } from "../../../app/picture/level/level-ground.ts";
import type { Place } from "./place.ts";
import type { ViewFrame } from "./view-frame.ts";

/** Reads every propellant at the instant under a pixel; outside of what is known only the line. */
export const cursorGroups = (model: TimelineModel, place: Place, frame: ViewFrame, x: number): readonly Group[] => {
  const { scale, unit, measure } = frame;
  if (x < scale.left || x > scale.right) return [];
  const at = scale.at(x);
  const marks = place.charts.flatMap((chart, index): readonly Shape[] => {
    const level = model.levels[index];
    if (level === undefined) return [];
    const massKg = at < model.plan.asOfAt ? levelOf(level.past, at) : levelOf(level.forecast, at);
    if (massKg === null) return [];
    const axis = levelAxis(level, chart.plot, frame.unit);
    const y = axis.y(massKg);
    const share = level.fillKg > 0 ? `, ${formatPercent((100 * massKg) / level.fillKg, 0)} full` : "";
    const text = `${formatMass(massKg, unit)}${share}`;
    const width = measure(text, 12, true);
    const isLeft = x + 16 + width > scale.right;
    const textX = isLeft ? x - 10 - width : x + 10;
    const textY = Math.max(chart.plot.y + 10, Math.min(y - 14, chart.plot.y + chart.plot.height - 10));
    const ink = propellantInk(level.propellant.position);
    return [
      { kind: "dot", x, y, radius: 3.5, fill: "raised", edge: ink },
      {
        kind: "rect",
        x: textX - 4,
        y: textY - 9,
        width: width + 8,
        height: 18,
        fill: "raised",
        edge: "hairline",
        corner: 2,
      },
      { kind: "text", x: textX, y: textY, text, ink: "ink", size: 12, anchor: "start", isBold: true },
    ];
  });
  return [{ clip: null, shapes: [line(x, 0, x, place.height, "accent", 1), ...marks] }];
};

interface HeldWords {
  readonly text: string;
  readonly status: SupplyStatus | null;
  readonly x: number;
  readonly y: number;
}

const flightHeld = (flight: Flight, place: Place, frame: ViewFrame, grab: Grab): HeldWords => {
  const bar = flightBar(flight, place, frame.scale);
  const ends = {
    body: `${formatInstant(flight.departAt)} → ${formatInstant(flight.arriveAt)}`,
    start: `departs ${formatInstant(flight.departAt)}`,
    arrival: `arrives ${formatInstant(flight.arriveAt)}`,
    end: `leaves the port ${formatInstant(berthEndAt(flight))}`,
  };
  return { text: `${flight.name}: ${ends[grab.grip]}`, status: null, x: bar.x, y: bar.y + bar.height + 14 };
};

const sortieHeld = (model: TimelineModel, sortie: Sortie, place: Place, frame: ViewFrame, grab: Grab): HeldWords => {
  const bar = sortieBar(sortie, place, frame.scale);
  const supply = model.glance.sorties.find((row) => row.sortieId === sortie.id);
  const ends = {
    body: `${formatInstant(sortie.loadAt)} → ${formatInstant(sortie.returnAt)}`,
    start: `loads ${formatInstant(sortie.loadAt)}`,
    arrival: `returns ${formatInstant(sortie.returnAt)}`,
    end: `returns ${formatInstant(sortie.returnAt)}`,
  };
  const words = supply === undefined ? "" : `, ${supplyWords(model.plan, supply, frame.unit)}`;
  return {
    text: `${sortie.name}: ${ends[grab.grip]}${words}`,
    status: supply?.status ?? null,
    x: bar.x,
    y: bar.y + bar.height + 14,
  };
};

/** The dates of what is held, and the status of a sortie, below its bar. */
export const heldGroups = (model: TimelineModel, place: Place, frame: ViewFrame, grab: Grab): readonly Group[] => {
  const { scale, measure } = frame;
  const flight = model.flights.find((row) => row.id === grab.id);
  const sortie = model.sorties.find((row) => row.id === grab.id);
  const held =
    flight !== undefined
      ? flightHeld(flight, place, frame, grab)
      : sortie !== undefined
        ? sortieHeld(model, sortie, place, frame, grab)
        : null;
  if (held === null) return [];
  const markWidth = held.status === null ? 0 : 16;
  const width = markWidth + measure(held.text, 12, true);
  const x = Math.max(scale.left, Math.min(held.x, scale.right - width - 6));
  const box = { x: x - 6, y: held.y - 11, width: width + 12, height: 22 };
  const mark: readonly Shape[] =
    held.status === null ? [] : [{ kind: "status", x: x + 5, y: held.y, radius: 4.5, status: held.status }];
  return [
    {
      clip: null,
      shapes: [
        { kind: "rect", ...box, fill: "raised", edge: "accent", corner: 2 },
        ...mark,
        {
          kind: "text",
          x: x + markWidth,
          y: held.y,
          text: held.text,
          ink: "ink",
          size: 12,
          anchor: "start",
          isBold: true,
        },
      ],
    },
  ];
};
