/** The items that can be pointed at and focused: flights, sorties, level charts, each with its box and its words. */
import type { Box } from "../../../app/picture/shape.ts";
import type { MassUnit } from "../../format/mass.ts";
import type { TimeScale } from "../../../app/picture/time-scale.ts";
import { asFlown } from "../model/as-flown.ts";
import type { TimelineModel } from "../model/timeline-model.ts";
import { berthEndAt } from "../model/timeline-model.ts";
import { flightWords, levelWords, sortieWords } from "../words/item-words.ts";
import { flightBar, sortieBar } from "./bar.ts";
import type { Place } from "./place.ts";

export interface TimelineItem extends Box {
  readonly kind: "flight" | "sortie" | "level";
  readonly id: string;
  /** Lane or chart it stands in. */
  readonly rowId: string;
  readonly fromAt: number;
  readonly untilAt: number;
  /** Flights: where the berth begins, pixels. */
  readonly innerX: number | null;
  /** Its name for those who hear it, and for the hint at the pointer. */
  readonly words: string;
}

export interface TimelineRow {
  readonly id: string;
  readonly title: string;
  /** In order of time. */
  readonly items: readonly TimelineItem[];
}

const laneOf = (place: Place, y: number): string =>
  place.lanes.find((lane) => y >= lane.top && y < lane.top + lane.height)?.id ?? "";

const flightItems = (model: TimelineModel, place: Place, scale: TimeScale, unit: MassUnit): readonly TimelineItem[] =>
  model.flights.map((flight) => {
    const bar = flightBar(flight, place, scale);
    return {
      kind: "flight",
      id: flight.id,
      rowId: laneOf(place, bar.y),
      fromAt: flight.departAt,
      untilAt: berthEndAt(flight),
      x: bar.x,
      y: bar.y - 2,
      width: bar.endX - bar.x,
      height: bar.height + 4,
      innerX: bar.arriveX,
      words: flightWords(model.plan, flight, unit),
    };
  });

const sortieItems = (model: TimelineModel, place: Place, scale: TimeScale, unit: MassUnit): readonly TimelineItem[] => {
  const supplies = new Map(model.glance.sorties.map((supply) => [supply.sortieId, supply]));
  return model.sorties.map((sortie) => {
    const flown = asFlown(sortie, supplies.get(sortie.id));
    const bar = sortieBar(flown, place, scale);
    return {
      kind: "sortie",
      id: sortie.id,
      rowId: laneOf(place, bar.y),
      fromAt: flown.loadAt,
      untilAt: flown.returnAt,
      x: bar.x,
      y: bar.y - 1,
      width: bar.width,
      height: bar.height + 2,
      innerX: null,
      words: sortieWords(model.plan, sortie, supplies.get(sortie.id), unit),
    };
  });
};

/** Every row with its items, top to bottom. Items off screen are there as well, for the keyboard. */
export const timelineRows = (
  model: TimelineModel,
  place: Place,
  scale: TimeScale,
  unit: MassUnit,
): readonly TimelineRow[] => {
  const items = [...flightItems(model, place, scale, unit), ...sortieItems(model, place, scale, unit)];
  const lanes = place.lanes
    .filter((lane) => lane.kind === "flights" || lane.kind === "sorties")
    .map((lane) => ({
      id: lane.id,
      title: lane.title,
      items: items.filter((item) => item.rowId === lane.id).sort((a, b) => a.fromAt - b.fromAt),
    }));
  const charts = place.charts.flatMap((chart, index): readonly TimelineRow[] => {
    const level = model.levels[index];
    if (level === undefined) return [];
    const item: TimelineItem = {
      kind: "level",
      id: level.propellant.id,
      rowId: `level/${level.propellant.id}`,
      fromAt: scale.fromAt,
      untilAt: scale.untilAt,
      ...chart.plot,
      innerX: null,
      words: levelWords(model, level, scale.fromAt, scale.untilAt, unit),
    };
    return [{ id: item.rowId, title: level.propellant.name, items: [item] }];
  });
  return [...lanes, ...charts];
};
