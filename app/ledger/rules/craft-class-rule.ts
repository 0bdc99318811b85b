/** Rules of a class of craft. */
import { findEntity } from "../../entity/entity-index.ts";
import { type Rule, need, repeated } from "./rule.ts";

const propellantsOnce: Rule<"craftClass"> = (row) =>
  repeated(row.propellants.map((line) => line.propellantId)).map((i) => ({
    property: `propellants.${i}.propellantId`,
    message: `${row.name}: this propellant stands in the list twice.`,
  }));

const linesFit: Rule<"craftClass"> = (row) =>
  row.propellants.flatMap((line, i) => [
    ...need(
      row.role === "lander" || line.loadKg <= line.capacityKg,
      `propellants.${i}.loadKg`,
      `${row.name}: the usual load of ${line.propellantId} is more than its tank holds.`,
    ),
    ...need(
      line.returnKg <= line.loadKg,
      `propellants.${i}.returnKg`,
      `${row.name}: more ${line.propellantId} is to come home than is loaded.`,
    ),
    ...need(
      line.residualKg <= line.capacityKg,
      `propellants.${i}.residualKg`,
      `${row.name}: what cannot be drawn of ${line.propellantId} is more than its tank holds.`,
    ),
    ...need(
      line.lossFraction < 1,
      `propellants.${i}.lossFraction`,
      `${row.name}: a transfer that loses all of what flows delivers nothing.`,
    ),
  ]);

const wallsCanBeCooled: Rule<"craftClass"> = (row, plan) =>
  row.propellants.flatMap((line, i) => {
    if (line.wall === undefined) return [];
    const property = `propellants.${i}.wall`;
    const name = findEntity(plan, "propellant", line.propellantId);
    return [
      ...need(row.role === "lander", property, `${row.name}: the wall of a tank is stated of a lander's tanks alone.`),
      ...need(
        name === null || name.fluid !== null,
        property,
        `${row.name}: ${name?.name.toLowerCase()} has no property table, so what a warm wall boils of it cannot be computed. State it as chilldown.`,
      ),
    ];
  });

export const craftClassRules: readonly Rule<"craftClass">[] = [propellantsOnce, linesFit, wallsCanBeCooled];
