/** A plan finding as the sentence a person reads: on screen, on paper and on the command line alike. */
import { PlanningError } from "../contract/failure.ts";
import { formatMass } from "../format/mass.ts";
import type { PlanSnapshot } from "../forecast/plan.ts";
import { formatDate, formatMinute } from "../ledger/time.ts";
import { checkSentence } from "../sortie/check-sentence.ts";
import { neededEngines } from "../sortie/engine-words.ts";
import type { PlanFinding } from "./report.ts";

/** One sentence: what, where, how much, when. */
export const findingSentence = (plan: PlanSnapshot, finding: PlanFinding): string => {
  const name = (list: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    list.find((each) => each.id === id)?.name ?? id;
  const flight = (id: string): string => name(plan.flights, id);
  const sortie = (id: string): string => name(plan.sorties, id);
  const propellant = (id: string): string => name(plan.propellants, id).toLowerCase();
  const depot = (id: string): string => name(plan.depots, id);
  const until = (at: number | null): string => (at === null ? "to the end of the forecast" : `to ${formatDate(at)}`);
  switch (finding.kind) {
    case "overflow":
      return `${flight(finding.flightId)} finds the ${propellant(finding.propellantId)} tanks full on ${formatDate(finding.at)}: ${formatMass(finding.notTakenKg)} ${finding.fate === "vented" ? "is vented" : "stays aboard"}.`;
    case "full depot":
      return `${flight(finding.flightId)} arrives at ${depot(finding.depotId)} on ${formatDate(finding.at)} with every tank it would fill already full.`;
    case "port conflict":
      return `${depot(finding.depotId)} has ${finding.ports === 1 ? "1 port" : `${finding.ports} ports`} for ${finding.flightIds.map(flight).join(", ")} from ${formatMinute(finding.fromAt)} to ${formatMinute(finding.untilAt)}.`;
    case "tank empty":
      return `${name(plan.tanks, finding.tankId)} is empty from ${formatDate(finding.fromAt)} ${until(finding.untilAt)}.`;
    case "below reserve":
      return `${name(plan.propellants, finding.propellantId)} at ${depot(finding.depotId)} is below its reserve from ${formatDate(finding.fromAt)} ${until(finding.untilAt)}; the lowest level is ${formatMass(finding.lowestKg)} on ${formatDate(finding.lowestAt)}.`;
    case "origin ran dry":
      return `${flight(finding.flightId)} leaves on ${formatDate(finding.at)} with ${formatMass(finding.missingKg)} less ${propellant(finding.propellantId)} than planned: its origin has no more to give.`;
    case "unused flight":
      return `${flight(finding.flightId)} brings nothing that any sortie uses.`;
    case "lander overlap":
      return `${name(plan.craft, finding.landerId)} cannot fly ${sortie(finding.sortieIds[0])} and ${sortie(finding.sortieIds[1])} at the same time.`;
    case "lander cannot hold":
      return `${sortie(finding.sortieId)} needs ${formatMass(finding.loadKg)} of ${propellant(finding.propellantId)}; the lander's tank holds ${formatMass(finding.capacityKg)}.`;
    case "engine change due":
      return `${name(plan.craft, finding.landerId)} ${neededEngines(finding.engineNumbers, finding.engines)} before ${sortie(finding.sortieId)} on ${formatDate(finding.at)}, which would take ${finding.exceeds.join(" and ")} over the rating.`;
    case "sortie check":
      return `${sortie(finding.sortieId)}: ${checkSentence(finding.check, (id) => name(plan.propellants, id))}.`;
    case "circular flights":
      return `${finding.flightIds.map(flight).join(", ")} take no time and feed each other at one instant: nothing says which comes first, so the forecast leaves them out.`;
    case "overdue":
      return `${name([...plan.flights, ...plan.sorties], finding.id)} should have gone or come before ${formatDate(finding.at)} and no record says so: the forecast takes it to do so then.`;
    default:
      throw new PlanningError("defect", "A finding of a kind that this program does not know.");
  }
};
