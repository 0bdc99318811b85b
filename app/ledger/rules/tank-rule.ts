/** Rules of a tank. */
import { findEntity } from "../../entity/entity-index.ts";
import { type Rule, isAtMost, need } from "./rule.ts";

const KG_DIGITS = 3;
const CENT = 100;

const fitsVolume: Rule<"tank"> = (tank, plan) => {
  const propellant = findEntity(plan, "propellant", tank.propellantId);
  if (tank.volumeM3 === null || propellant === null) return [];
  const roomKg = tank.volumeM3 * propellant.densityKgPerM3 * (1 - tank.ullagePercent / CENT);
  return need(
    isAtMost(tank.maximumFillKg, roomKg),
    "maximumFillKg",
    `${tank.name}: ${tank.volumeM3} m³ with ${tank.ullagePercent} % ullage hold ${roomKg.toFixed(KG_DIGITS)} kg of ${propellant.name}; the maximum fill is ${tank.maximumFillKg} kg.`,
  );
};

const limitsInOrder: Rule<"tank"> = (tank) => [
  ...need(tank.heelKg <= tank.maximumFillKg, "heelKg", `${tank.name}: the heel is more than the maximum fill.`),
  ...need(
    tank.reserveKg <= tank.maximumFillKg,
    "reserveKg",
    `${tank.name}: the reserve is more than the maximum fill.`,
  ),
];

const belongsToLander: Rule<"tank"> = (tank, plan) => {
  const craft = tank.ownerKind === "craft" ? findEntity(plan, "craft", tank.ownerId) : null;
  if (craft === null) return [];
  const others = plan.tank.filter((row) => row.ownerId === craft.id && row.propellantId === tank.propellantId);
  return [
    ...need(
      findEntity(plan, "craftClass", craft.classId)?.role === "lander",
      "ownerId",
      `${craft.name} is not a lander: only depots and landers have tanks in the books.`,
    ),
    ...need(others.length < 2, "propellantId", `${craft.name} has a tank for this propellant already.`),
  ];
};

export const tankRules: readonly Rule<"tank">[] = [fitsVolume, limitsInOrder, belongsToLander];
