/** The mass axis. */
import { expect, it } from "vitest";
import { massScale } from "../../../renderer/charts/mass-scale.ts";

it("stands on empty, has round ticks, and bears its unit once, at the top", () => {
  const axis = massScale(17_000, 0, 128, "auto");
  expect(axis.y(0)).toBe(128);
  expect(axis.ticks.map((tick) => tick.label)).toEqual(["0", "5", "10", "15\u202ft"]);
});

it("writes kilograms for small tanks, and tonnes if so chosen", () => {
  expect(massScale(600, 0, 96, "auto").ticks.at(-1)?.label).toBe("600\u202fkg");
  expect(massScale(600, 0, 96, "t").ticks.map((tick) => tick.label)).toEqual(["0.0", "0.2", "0.4", "0.6\u202ft"]);
});

it("of an empty depot is still an axis", () => {
  const axis = massScale(0, 0, 100, "auto");
  expect(Number.isFinite(axis.y(0))).toBe(true);
  expect(axis.y(0)).toBe(100);
});
