/** The mass axis. */
import { expect, it } from "vitest";
import { massScale } from "../../../app/picture/mass-scale.ts";

it("stands on empty and has round ticks in the unit of its magnitude", () => {
  const axis = massScale(17_000, 0, 128, "auto");
  expect(axis.y(0)).toBe(128);
  expect(axis.ticks.map((tick) => tick.label)).toEqual(["0", "5", "10", "15"]);
  expect(axis.unit).toBe("t");
});

it("writes kilograms for small tanks, and tonnes if so chosen", () => {
  expect(massScale(600, 0, 96, "auto")).toMatchObject({
    unit: "kg",
    ticks: [{ label: "0" }, { label: "200" }, { label: "400" }, { label: "600" }],
  });
  expect(massScale(600, 0, 96, "t").ticks.map((tick) => tick.label)).toEqual(["0.0", "0.2", "0.4", "0.6"]);
});

it("of an empty depot is still an axis", () => {
  const axis = massScale(0, 0, 100, "auto");
  expect(Number.isFinite(axis.y(0))).toBe(true);
  expect(axis.y(0)).toBe(100);
});
