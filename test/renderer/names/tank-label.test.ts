/** What a tank is called in the name of a step: by its name, before it is in the plan too. */
import { expect, it } from "vitest";
import { nameOf } from "../../../renderer/names/entity-words.ts";
import { smallPlan, tank } from "../../app/forecast/small-plan.ts";

const plan = smallPlan({ tanks: [tank("a", { name: "Oxygen tank" })] });

it("a tank that is being added is called by its name, not by its id", () => {
  const fresh = tank("4f1c-new", { name: "Hydrogen tank" });
  expect(nameOf(plan, "tank", fresh)).toBe("tarn Hydrogen tank");
});

it("one that is being renamed is called by the name that it gets", () => {
  expect(nameOf(plan, "tank", { ...plan.tanks[0]!, name: "Tarn tank 2" })).toMatch(/Tarn tank 2$/);
});
