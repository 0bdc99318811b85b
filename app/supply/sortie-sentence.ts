/** How one sortie stands, as the sentence that every form of the answer writes. */
import { formatMass, formatShortage, type MassUnit } from "../format/mass.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { formatDate, formatMinute } from "../format/time.ts";
import { listed } from "../words/counted.ts";
import { missingCase } from "../ground/missing-case.ts";
import type { SortieSupply } from "./answer.ts";
import { nameIn } from "../words/named.ts";

const propellant = (plan: PlanSnapshot, id: string): string => nameIn(plan.propellants, id).toLowerCase();

/** "1.90 t of hydrogen and 0.20 t of oxygen"; empty: nothing of any propellant is missing. */
export const missingWords = (plan: PlanSnapshot, sortie: SortieSupply, unit: MassUnit = "auto"): string =>
  listed(
    sortie.lines
      .filter((line) => line.missingKg > 0)
      .map((line) => `${formatShortage(line.missingKg, unit)} of ${propellant(plan, line.propellantId)}`),
  );

/** Why a short sortie is short: "Heron 1 is away", "short by 1.90 t of hydrogen". */
export const shortReason = (plan: PlanSnapshot, sortie: SortieSupply, unit: MassUnit = "auto"): string => {
  const missing = missingWords(plan, sortie, unit);
  if (!sortie.landerIsAway) return `short by ${missing}`;
  const landerId = plan.sorties.find(({ id }) => id === sortie.sortieId)?.landerId ?? "";
  const away = `${nameIn(plan.craft, landerId)} is away`;
  return missing === "" ? away : `${away}, and the depot is short by ${missing}`;
};

/** When a short sortie flies after all, or could: the end of its sentence. */
export const shortOutlook = (plan: PlanSnapshot, sortie: SortieSupply): string => {
  if (sortie.outcome === "waits and flies" && sortie.loadedAt !== null)
    return `It waits and loads on ${formatMinute(sortie.loadedAt)}.`;
  const stands = sortie.outcome === "stands down" ? "It stands down. " : "";
  return sortie.firstPossibleAt === null
    ? `${stands}It cannot load before the end of the forecast (${formatDate(plan.horizonAt)}), even if it alone moves.`
    : `${stands}Earliest loading if only this sortie moves: ${formatMinute(sortie.firstPossibleAt)}.`;
};

/** "300 kg of the hydrogen reserve and 20 kg of the oxygen reserve". */
const dipWords = (plan: PlanSnapshot, sortie: SortieSupply): string =>
  listed(
    sortie.lines
      .filter((line) => line.status === "thin")
      .map(
        (line) => `${formatShortage(-line.marginOverReserveKg)} of the ${propellant(plan, line.propellantId)} reserve`,
      ),
  );

/** One or two whole sentences on a sortie, by its status. */
export const sortieSentence = (plan: PlanSnapshot, sortie: SortieSupply): string => {
  const on = formatDate(sortie.plannedAt);
  const { status } = sortie;
  switch (status) {
    case "short":
      return `${sortie.name} cannot load on ${on}: ${shortReason(plan, sortie)}. ${shortOutlook(plan, sortie)}`;
    case "thin":
      return `${sortie.name} on ${on} flies, but uses ${dipWords(plan, sortie)}.`;
    case "not stated":
      return `${sortie.name} on ${on} states no propellant: nothing says what it needs, so nothing says that it has it.`;
    case "supplied": {
      const limiting = sortie.lines.find(({ propellantId }) => propellantId === sortie.limitingPropellantId);
      return limiting === undefined
        ? `${sortie.name} can load on ${on}.`
        : `${sortie.name} can load on ${on}, with ${formatMass(limiting.marginOverReserveKg)} of ${propellant(plan, limiting.propellantId)} over the reserve.`;
    }
    default:
      return missingCase(status);
  }
};
