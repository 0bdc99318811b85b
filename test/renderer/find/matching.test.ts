/** What is found by a few letters, and in which order; where it leads. */
import { describe, expect, it } from "vitest";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import type { FindItem } from "../../../renderer/find/find-items.ts";
import { windowAround } from "../../../renderer/state/window-around.ts";
import { MAX_FOUND, matching } from "../../../renderer/find/matching.ts";

const item = (name: string, what = "flight to Tarn, planned"): FindItem => ({
  id: name,
  name,
  what,
  target: { kind: "case", planCaseId: name },
});
const names = (items: readonly FindItem[], typed: string): readonly string[] =>
  matching(items, typed).map(({ name }) => name);

const fleet = ["Drover 1", "Packhorse 1", "Packhorse 12", "Sortie 1", "Überlauf"].map((name) => item(name));

describe("what is typed", () => {
  it.each([
    ["pack", ["Packhorse 1", "Packhorse 12"]],
    ["PACKHORSE 12", ["Packhorse 12"]],
    ["12 pack", ["Packhorse 12"]],
    ["packhorse 1", ["Packhorse 1", "Packhorse 12"]],
    ["uber", ["Überlauf"]],
    ["horse", ["Packhorse 1", "Packhorse 12"]],
    ["  ", []],
    ["nothing of the kind", []],
  ])("%j finds %j", (typed, found) => expect(names(fleet, typed)).toEqual(found));

  it("is looked for in the name first, then in what the thing is", () =>
    expect(names([item("Drover 1", "flight, firm"), item("Firm ground")], "firm")).toEqual([
      "Firm ground",
      "Drover 1",
    ]));

  it("brings a name that is just it before all that begin with it", () =>
    expect(names([item("Tarn 2"), item("Tarn")], "tarn")).toEqual(["Tarn", "Tarn 2"]));

  it("looks for a digit in names alone: every description has a date", () =>
    expect(names([item("Drover 3"), item("Drover 1", "flight, arrives 2031-03-03")], "drover 3")).toEqual([
      "Drover 3",
    ]));

  it("brings no more than can be read", () =>
    expect(
      matching(
        Array.from({ length: 200 }, (_, n) => item(`Flight ${n}`)),
        "flight",
      ),
    ).toHaveLength(MAX_FOUND));
});

describe("the time that is shown", () => {
  const month = { fromAt: 0, untilAt: 30 * DAY_MS };
  it("stays where the thing is in sight", () =>
    expect(windowAround(month, { fromAt: DAY_MS, untilAt: 2 * DAY_MS })).toBe(month));
  it("stays the whole campaign", () => expect(windowAround(null, { fromAt: 0, untilAt: DAY_MS })).toBeNull());
  it("moves to the thing, as long as it was", () =>
    expect(windowAround(month, { fromAt: 100 * DAY_MS, untilAt: 102 * DAY_MS })).toEqual({
      fromAt: 86 * DAY_MS,
      untilAt: 116 * DAY_MS,
    }));
  it("grows where the thing is longer", () => {
    const shown = windowAround(month, { fromAt: 100 * DAY_MS, untilAt: 300 * DAY_MS });
    expect(shown?.fromAt).toBeLessThan(100 * DAY_MS);
    expect(shown?.untilAt).toBeGreaterThan(300 * DAY_MS);
  });
});
