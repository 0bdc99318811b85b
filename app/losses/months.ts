/** The periods of a statement: calendar months in UTC, or mission months of 30 days from a given instant. */
import { UTCDate } from "@date-fns/utc";
import { addMonths, startOfMonth } from "date-fns";
import { PlanningError } from "../ground/failure.ts";
import { DAY_MS } from "../ground/quantity.ts";

/** A mission month has 30 days. */
export const MISSION_MONTH_DAYS = 30;

/** At most so many periods in one statement: fifty years of months. */
export const MAX_PERIODS = 600;

const checkSpan = (fromAt: number, untilAt: number): void => {
  if (!(untilAt > fromAt))
    throw new PlanningError("invalid input", "The last month must end after the first begins.", "untilAt");
};

const refuseMany = (edges: readonly number[]): readonly number[] => {
  if (edges.length > MAX_PERIODS + 1) {
    throw new PlanningError("invalid input", `A statement has ${MAX_PERIODS} months at most.`, "untilAt");
  }
  return edges;
};

/** Edges of the calendar months that touch the span from `fromAt` (inclusive) to `untilAt` (exclusive). */
export const calendarMonthEdges = (fromAt: number, untilAt: number): readonly number[] => {
  checkSpan(fromAt, untilAt);
  const first = startOfMonth(new UTCDate(fromAt));
  const edges = [first.getTime()];
  while ((edges.at(-1) as number) < untilAt && edges.length <= MAX_PERIODS + 1) {
    edges.push(addMonths(first, edges.length).getTime());
  }
  return refuseMany(edges);
};

/** Edges of the mission months, counted from `missionStartAt`, that touch the span. */
export const missionMonthEdges = (missionStartAt: number, fromAt: number, untilAt: number): readonly number[] => {
  checkSpan(fromAt, untilAt);
  const month = MISSION_MONTH_DAYS * DAY_MS;
  const first = missionStartAt + Math.floor((fromAt - missionStartAt) / month) * month;
  const edges = [first];
  while ((edges.at(-1) as number) < untilAt && edges.length <= MAX_PERIODS + 1)
    edges.push(first + edges.length * month);
  return refuseMany(edges);
};

/** "2031-02" for a calendar month, "mission month 7" for the seventh from the start. */
export const monthLabel = (fromAt: number, missionStartAt: number | null): string => {
  if (missionStartAt === null) return new UTCDate(fromAt).toISOString().slice(0, 7);
  return `mission month ${Math.round((fromAt - missionStartAt) / (MISSION_MONTH_DAYS * DAY_MS)) + 1}`;
};
