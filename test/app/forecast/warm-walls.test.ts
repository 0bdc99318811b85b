/** A lander's warm tank wall costs propellant at each top-up, on top of the line. The kilograms are of the published check. */
import { expect, it } from "vitest";
import { imbalanceKg } from "../../../app/forecast/balance.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { CraftPropellant } from "../../../app/entity/craft.ts";
import { smallPlan, sortie } from "./small-plan.ts";

const plain: CraftPropellant = {
  propellantId: "lox",
  capacityKg: 100_000,
  loadKg: 0,
  returnKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 60,
  lossFraction: 0,
  rateKgPerDay: null,
};
const top = (lander: CraftPropellant, aboard = 0) => {
  const result = forecast(
    smallPlan({ opening: { a: 9000, "heron-1:lox": aboard }, sorties: [sortie("s", 1, 5000)], lander: [lander] }),
  );
  expect(result.balances.map(imbalanceKg)).toEqual([0]);
  return result.sorties[0]!.lines[0]!;
};

it("is drawn from the depot with the load, and booked as chilldown", () => {
  // 260 kg of aluminium from 150 K to 90.188 K: 0.92445 kJ/kg·K · 59.812 K · 260 kg over 213.06 kJ/kg are 67.5 kg.
  const warm = top({ ...plain, wall: { massKg: 260, metal: "aluminium", temperatureK: 150 } });
  expect(warm.chilldownKg).toBeCloseTo(60 + 67.5, 1);
  expect(warm.drawn[0]!.massKg).toBeCloseTo(5127.5, 1);
  expect(warm.loadedKg).toBeCloseTo(5000, 9);
  expect(warm.requiredKg - top(plain).requiredKg).toBeCloseTo(67.5, 1);
});

it("costs nothing where it is as cold as the liquid, or nothing is topped up", () => {
  expect(top({ ...plain, wall: { massKg: 260, metal: "steel", temperatureK: 80 } }).chilldownKg).toBe(60);
  expect(top({ ...plain, wall: { massKg: 260, metal: "steel", temperatureK: 250 } }, 5000).chilldownKg).toBe(0);
});
