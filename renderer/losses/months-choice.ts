/** Which months the Losses view shows, and what they are called. */
import { calendarMonthEdges, missionMonthEdges, monthLabel } from "../../app/losses/months.ts";

export interface MonthsChoice {
  readonly fromAt: number;
  readonly untilAt: number;
  /** null: calendar months; else where the mission months of 30 days begin. */
  readonly missionStartAt: number | null;
}

export const edgesOf = ({ fromAt, untilAt, missionStartAt }: MonthsChoice): readonly number[] =>
  missionStartAt === null ? calendarMonthEdges(fromAt, untilAt) : missionMonthEdges(missionStartAt, fromAt, untilAt);

/** "2031-02", or "month 7" of the mission. */
export const shortLabel =
  (missionStartAt: number | null) =>
  (fromAt: number): string =>
    monthLabel(fromAt, missionStartAt).replace("mission ", "");
