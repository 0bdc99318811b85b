/** The whole check in a sentence: what a manager asks first. */
import type { PlanSnapshot } from "../../app/forecast/plan.ts";
import type { SupplyGlance } from "../../app/supply/report.ts";
import { formatInstant } from "../format/instant.ts";
import { formatMass } from "../format/mass.ts";

export const standingSentence = (plan: PlanSnapshot, { sorties }: SupplyGlance): string => {
  if (sorties.length === 0) return "There is no sortie ahead to check. Add one with Plan, Add sortie.";
  const first = sorties.filter(({ status }) => status === "short").toSorted((a, b) => a.plannedAt - b.plannedAt)[0];
  const thin = sorties.filter(({ status }) => status === "thin").length;
  if (first === undefined) {
    const all = sorties.length === 1 ? "The one sortie ahead" : `All ${sorties.length} sorties ahead`;
    return thin === 0
      ? `${all} can load with the reserve kept.`
      : `${all} can load; ${thin === 1 ? "one eats" : `${thin} eat`} into the reserve.`;
  }
  const line = first.lines.find(({ propellantId }) => propellantId === first.limitingPropellantId) ?? first.lines[0];
  const propellant = plan.propellants.find(({ id }) => id === line?.propellantId)?.name.toLowerCase() ?? "propellant";
  const could =
    first.firstPossibleAt === null
      ? "Moved alone it could not load before the end of the forecast."
      : `Moved alone it could load on ${formatInstant(first.firstPossibleAt)}.`;
  return `${first.name} is short by ${formatMass(line?.missingKg ?? 0)} of ${propellant} on ${formatInstant(first.plannedAt)}. ${could}`;
};
