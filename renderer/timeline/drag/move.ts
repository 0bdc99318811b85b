/** What a move of a flight or a sortie makes of it: pure, from the plan as it was and how far the pointer went. */
import { missingCase } from "../../../app/ground/missing-case.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Change } from "../../../app/entity/entities.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import type { Grip } from "../layout/hit-test.ts";
import { berthEndAt } from "../model/timeline-model.ts";

/** What is held, and by which part. */
export interface Grab {
  readonly kind: "flight" | "sortie";
  readonly id: string;
  readonly grip: Grip;
}

export const HOUR_MS = 3_600_000;
/** Enough room on screen for one hour to be met by hand. */
const HOURLY_FROM_PIXELS = 96;

/** Whole days, or whole hours when zoomed in; to the minute when free. */
export const snapped = (deltaMs: number, pixelsPerDay: number, isFree: boolean): number => {
  const step = isFree ? 60_000 : pixelsPerDay >= HOURLY_FROM_PIXELS ? HOUR_MS : DAY_MS;
  return Math.round(deltaMs / step) * step;
};

const flightOf = (plan: PlanSnapshot, id: string): Flight | undefined => plan.flights.find((row) => row.id === id);
const sortieOf = (plan: PlanSnapshot, id: string): Sortie | undefined => plan.sorties.find((row) => row.id === id);

/** Why something cannot be moved, in a sentence; null: it can. */
export const whyNotMovable = (plan: PlanSnapshot, grab: Grab): string | null => {
  const row = grab.kind === "flight" ? flightOf(plan, grab.id) : sortieOf(plan, grab.id);
  if (row === undefined) return "It is no longer in the plan.";
  switch (row.status) {
    case "planned":
    case "firm":
    case "departed":
      return null;
    default:
      return `${row.name} is ${row.status}; only what is planned or under way can be moved.`;
  }
};

/** A moved instant keeps out of the recorded past, unless it stood there already; and before the horizon. */
const bounded = (delta: number, earliest: number, latest: number, plan: PlanSnapshot): number => {
  const least = Math.min(0, plan.asOfAt - earliest);
  const most = Math.max(0, plan.horizonAt - latest);
  return Math.min(Math.max(delta, least), most);
};

const movedFlight = (plan: PlanSnapshot, flight: Flight, grip: Grip, delta: number): Flight => {
  const { departAt, arriveAt } = flight;
  // What has departed has its departure behind it: moving it moves the arrival.
  const part = flight.status === "departed" && grip !== "end" ? "arrival" : grip;
  switch (part) {
    case "body": {
      const by = bounded(delta, departAt, arriveAt, plan);
      return { ...flight, departAt: departAt + by, arriveAt: arriveAt + by };
    }
    case "start": {
      const by = bounded(delta, departAt, departAt, plan);
      return { ...flight, departAt: Math.min(departAt + by, arriveAt) };
    }
    case "arrival": {
      const by = bounded(delta, arriveAt, arriveAt, plan);
      return { ...flight, arriveAt: Math.max(arriveAt + by, departAt) };
    }
    case "end": {
      const endAt = berthEndAt(flight) + bounded(delta, berthEndAt(flight), berthEndAt(flight), plan);
      return { ...flight, berthDays: Math.max(0, (endAt - arriveAt) / DAY_MS) };
    }
    default:
      return missingCase(part);
  }
};

const movedSortie = (plan: PlanSnapshot, sortie: Sortie, grip: Grip, delta: number): Sortie => {
  const { loadAt, returnAt } = sortie;
  const part = sortie.status === "departed" ? "end" : grip;
  if (part === "end") {
    const by = bounded(delta, returnAt, returnAt, plan);
    return { ...sortie, returnAt: Math.max(returnAt + by, loadAt) };
  }
  if (part === "start") {
    const by = bounded(delta, loadAt, loadAt, plan);
    return { ...sortie, loadAt: Math.min(loadAt + by, returnAt) };
  }
  const by = bounded(delta, loadAt, loadAt, plan);
  return { ...sortie, loadAt: loadAt + by, returnAt: returnAt + by };
};

/** The change that moves what is held by a span of time (ms, may be negative); null: it is gone from the plan. */
export const moved = (plan: PlanSnapshot, grab: Grab, deltaMs: number): Change | null => {
  if (grab.kind === "flight") {
    const flight = flightOf(plan, grab.id);
    if (flight === undefined) return null;
    return { op: "put", kind: "flight", value: movedFlight(plan, flight, grab.grip, deltaMs) };
  }
  const sortie = sortieOf(plan, grab.id);
  if (sortie === undefined) return null;
  return { op: "put", kind: "sortie", value: movedSortie(plan, sortie, grab.grip, deltaMs) };
};

/** Whether a change leaves the row as it was. */
export const isUnmoved = (plan: PlanSnapshot, change: Change): boolean => {
  if (change.op !== "put") return false;
  if (change.kind === "flight") {
    const was = flightOf(plan, change.value.id);
    const { departAt, arriveAt, berthDays } = change.value;
    return was?.departAt === departAt && was.arriveAt === arriveAt && was.berthDays === berthDays;
  }
  if (change.kind === "sortie") {
    const was = sortieOf(plan, change.value.id);
    return was?.loadAt === change.value.loadAt && was.returnAt === change.value.returnAt;
  }
  return false;
};
