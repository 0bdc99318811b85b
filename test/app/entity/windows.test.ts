/** Departure windows stand at whole revolutions from the reference. */
import { describe, expect, it } from "vitest";
import { nextWindow, windowsBetween } from "../../../app/entity/windows.ts";

const DAY = 86_400_000;
const referenceAt = Date.UTC(2031, 0, 1);
const weekly = { windowPeriodDays: 7, windowReferenceAt: referenceAt };

describe("the next window", () => {
  it("is the instant itself when a window is open", () => expect(nextWindow(weekly, referenceAt)).toBe(referenceAt));
  it("is the next revolution a millisecond later", () =>
    expect(nextWindow(weekly, referenceAt + 1)).toBe(referenceAt + 7 * DAY));
  it("lies before the reference too", () =>
    expect(nextWindow(weekly, referenceAt - 8 * DAY)).toBe(referenceAt - 7 * DAY));
  it("is any instant for a depot without windows", () =>
    expect(nextWindow({ windowPeriodDays: null, windowReferenceAt: null }, 12_345)).toBe(12_345));
});

it("lists the windows of a span, both ends included", () =>
  expect(windowsBetween(weekly, referenceAt, referenceAt + 14 * DAY)).toEqual([
    referenceAt,
    referenceAt + 7 * DAY,
    referenceAt + 14 * DAY,
  ]));

it("finds the same windows from any start", () => {
  const orbit = { windowPeriodDays: 6.56235, windowReferenceAt: referenceAt };
  const all = windowsBetween(orbit, referenceAt - 500 * DAY, referenceAt + 500 * DAY);
  expect(all.length).toBe(Math.floor(500 / 6.56235) * 2 + 1);
  for (const [index, at] of all.slice(1).entries()) expect(nextWindow(orbit, all[index]! + 1)).toBe(at);
});
