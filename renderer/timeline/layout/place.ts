/** Where lanes and charts stand, top to bottom. Kept through a drag, so that nothing jumps under the pointer. */
import type { Flight } from "../../../app/entity/flight.ts";
import type { Box } from "../../../app/picture/shape.ts";
import { asFlown } from "../model/as-flown.ts";
import { type TimelineModel, berthEndAt } from "../model/timeline-model.ts";
import { packRows } from "./pack-rows.ts";

/** Widths beside the plot: lane names and mass ticks left, names of lines right. */
export const GUTTER = { left: 112, right: 148 } as const;
/** The head above the lanes: overview, then the time axis. */
export const HEAD = { overview: 38, axis: 38 } as const;

export const FLIGHT_ROW = 20;
export const SORTIE_ROW = 40;
export const PORT_ROW = 10;
const LANE_GAP = 1;
const CHART_PAD = 14;

/** Blank above and below a lane's rows, and the least height of a chart, pixels. */
interface Spacing {
  readonly lanePad: number;
  readonly leastChart: number;
}

const USUAL: Spacing = { lanePad: 8, leastChart: 104 };
/** Great magnification leaves little height: lanes draw together, so that sorties and a level are seen at once. */
const CLOSE: Spacing = { lanePad: 4, leastChart: 84 };
const LOW = 280;

/** Whether a timeline of this height, pixels, is drawn close. */
export const isLow = (height: number): boolean => height < LOW;

export interface Lane {
  readonly id: string;
  readonly kind: "flights" | "proposed" | "sorties" | "ports";
  /** Name in the left gutter. */
  readonly title: string;
  readonly top: number;
  readonly height: number;
}

/** A level chart: `plot` is where the curve runs. */
export interface ChartPlace {
  readonly propellantId: string;
  readonly top: number;
  readonly height: number;
  readonly plot: Box;
}

export interface Place {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly lanes: readonly Lane[];
  /** Blank above and below the rows of each lane. */
  readonly lanePad: number;
  readonly charts: readonly ChartPlace[];
  /** Lane and row of each flight; top of the bar's row. */
  readonly flightTop: ReadonlyMap<string, number>;
  readonly sortieTop: ReadonlyMap<string, number>;
  /** Rows of ports, the last for those that find none free. */
  readonly portRows: number;
}

const DAY = 86_400_000;

const className = (model: TimelineModel, flight: Flight): { readonly id: string; readonly name: string } => {
  const craft = model.plan.craft.find((row) => row.id === flight.craftId);
  const found = model.plan.craftClasses.find((row) => row.id === craft?.classId);
  return { id: found?.id ?? "unknown", name: found?.name ?? "Flights" };
};

/** Groups in order of first appearance in the plan's list of classes or craft. */
const grouped = <T>(rows: readonly T[], key: (row: T) => string): ReadonlyMap<string, readonly T[]> => {
  const groups = new Map<string, T[]>();
  for (const row of rows) groups.set(key(row), [...(groups.get(key(row)) ?? []), row]);
  return groups;
};

/** `height` is what there is to fill; the place is higher if the lanes need more. */
export const placeTimeline = (model: TimelineModel, width: number, height: number): Place => {
  const { lanePad, leastChart } = isLow(height) ? CLOSE : USUAL;
  const lanes: Lane[] = [];
  const flightTop = new Map<string, number>();
  const sortieTop = new Map<string, number>();
  let top = 0;
  const lane = (id: string, kind: Lane["kind"], title: string, inner: number): number => {
    const start = top + lanePad;
    lanes.push({ id, kind, title, top, height: inner + 2 * lanePad });
    top += inner + 2 * lanePad + LANE_GAP;
    return start;
  };

  const classes = grouped(model.flights, (flight) => className(model, flight).id);
  if (classes.size === 0) lane("flights", "flights", "Flights", FLIGHT_ROW);
  for (const [classId, flights] of classes) {
    const spans = flights.map((flight) => ({ id: flight.id, fromAt: flight.departAt, untilAt: berthEndAt(flight) }));
    const packing = packRows(spans, DAY);
    const first = flights[0];
    const title = first === undefined ? "Flights" : className(model, first).name;
    const start = lane(`flights/${classId}`, "flights", title, packing.rows * FLIGHT_ROW);
    for (const [id, row] of packing.rowOf) flightTop.set(id, start + row * FLIGHT_ROW);
  }

  const supplies = new Map(model.glance.sorties.map((supply) => [supply.sortieId, supply]));
  const proposed = model.proposal?.added ?? [];
  if (proposed.length > 0) {
    const spans = proposed.map((flight) => ({ id: flight.id, fromAt: flight.departAt, untilAt: berthEndAt(flight) }));
    const packing = packRows(spans, DAY);
    const start = lane("proposed", "proposed", "Proposed", packing.rows * FLIGHT_ROW);
    for (const [id, row] of packing.rowOf) flightTop.set(id, start + row * FLIGHT_ROW);
  }

  const landers = grouped(model.sorties, (sortie) => sortie.landerId);
  if (landers.size === 0) lane("sorties", "sorties", "Sorties", SORTIE_ROW);
  for (const [landerId, sorties] of landers) {
    const spans = sorties.map((sortie) => ({
      id: sortie.id,
      fromAt: sortie.loadAt,
      untilAt: asFlown(sortie, supplies.get(sortie.id)).returnAt,
    }));
    const packing = packRows(spans, 0);
    const title = model.plan.craft.find((row) => row.id === landerId)?.name ?? "Sorties";
    const start = lane(`sorties/${landerId}`, "sorties", title, packing.rows * SORTIE_ROW);
    for (const [id, row] of packing.rowOf) sortieTop.set(id, start + row * SORTIE_ROW);
  }

  // One row more than there are ports, for flights that find none free.
  const portRows = model.depot.ports + 1;
  lane("ports", "ports", model.depot.ports === 1 ? "Port" : "Ports", portRows * PORT_ROW);

  const count = model.levels.length;
  const room = count === 0 ? 0 : Math.max(leastChart, Math.floor((height - top) / count));
  const charts = model.levels.map((source, index) => {
    const chartTop = top + index * room;
    const plot = {
      x: GUTTER.left,
      y: chartTop + CHART_PAD,
      width: width - GUTTER.left - GUTTER.right,
      height: room - CHART_PAD - 8,
    };
    return { propellantId: source.propellant.id, top: chartTop, height: room, plot };
  });
  return {
    width,
    height: Math.max(height, top + count * room),
    left: GUTTER.left,
    right: width - GUTTER.right,
    lanes,
    lanePad,
    charts,
    flightTop,
    sortieTop,
    portRows,
  };
};

/**
 * How far a low timeline is scrolled when it is first seen: as far as it takes to have the first level in sight, but no
 * further than the last lane of sorties. Pixels.
 */
export const firstSight = (place: Place, height: number): number => {
  const level = place.charts[0];
  const sorties = place.lanes.findLast((lane) => lane.kind === "sorties");
  if (level === undefined || sorties === undefined) return 0;
  return Math.max(0, Math.min(level.top + level.height - height, sorties.top));
};
