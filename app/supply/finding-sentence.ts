/** A plan finding as the sentence a person reads: on screen, on paper and on the command line alike. */
import { formatMass, formatMassChange, formatShortage } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { formatDate, formatMinute } from "../format/time.ts";
import { checkSentence } from "../sortie/check-sentence.ts";
import { neededEngines, stageOfCraft } from "../sortie/engine-words.ts";
import { counted, listed } from "../words/counted.ts";
import { missingCase } from "../ground/missing-case.ts";
import type { PlanFinding } from "./answer.ts";
import { nameIn } from "../words/named.ts";

const extraWords = (
  extra: Extract<PlanFinding, { kind: "time away differs" }>["extra"],
  propellant: (id: string) => string,
): string => {
  if (extra === null) return ", for which its load is computed";
  const parts = extra.map(({ propellantId, massKg }) => `${formatMassChange(massKg)} of ${propellant(propellantId)}`);
  return parts.length === 0
    ? "; its load would be the same"
    : `; with that time on its longest stay the load would change by ${listed(parts)}`;
};

/** One sentence: what, where, how much, when. */
export const findingSentence = (plan: PlanSnapshot, finding: PlanFinding): string => {
  const name = (list: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    nameIn(list, id);
  const flight = (id: string): string => name(plan.flights, id);
  const sortie = (id: string): string => name(plan.sorties, id);
  const propellant = (id: string): string => name(plan.propellants, id).toLowerCase();
  const depot = (id: string): string => name(plan.depots, id);
  const until = (at: number | null): string => (at === null ? "to the end of the forecast" : `to ${formatDate(at)}`);
  switch (finding.kind) {
    case "overflow":
      return `${flight(finding.flightId)} finds the ${propellant(finding.propellantId)} tanks full on ${formatDate(finding.at)}: ${formatShortage(finding.notTakenKg)} ${finding.fate === "vented" ? "is vented" : "stays aboard"}.`;
    case "full depot":
      return `${flight(finding.flightId)} arrives at ${depot(finding.depotId)} on ${formatDate(finding.at)} with every tank it would fill already full.`;
    case "port conflict":
      return `${counted(finding.flightIds.length, "flight")} (${listed(finding.flightIds.map(flight))}) need ${depot(finding.depotId)}'s ${finding.ports === 1 ? "one port" : `${finding.ports} ports`} from ${formatMinute(finding.fromAt)} to ${formatMinute(finding.untilAt)}.`;
    case "tank empty":
      return `${name(plan.tanks, finding.tankId)} is empty from ${formatDate(finding.fromAt)} ${until(finding.untilAt)}.`;
    case "below reserve":
      return `${name(plan.propellants, finding.propellantId)} at ${depot(finding.depotId)} is below its reserve from ${formatDate(finding.fromAt)} ${until(finding.untilAt)}; the lowest level is ${formatMass(finding.lowestKg)} on ${formatDate(finding.lowestAt)}.`;
    case "origin ran dry":
      return `${flight(finding.flightId)} leaves on ${formatDate(finding.at)} with ${formatShortage(finding.missingKg)} less ${propellant(finding.propellantId)} than planned: its origin has no more to give.`;
    case "unused flight":
      return `${flight(finding.flightId)} brings nothing that any sortie uses.`;
    case "lander overlap":
      return `${name(plan.craft, finding.landerId)} cannot fly ${sortie(finding.sortieIds[0])} and ${sortie(finding.sortieIds[1])} at the same time.`;
    case "lander cannot hold":
      return `${sortie(finding.sortieId)} needs ${formatMass(finding.loadKg)} of ${propellant(finding.propellantId)}; the lander's tank holds ${formatMass(finding.capacityKg)}.`;
    case "surplus aboard":
      return `${sortie(finding.sortieId)} leaves with ${listed(finding.surplus.map(({ propellantId, massKg }) => `${formatMass(massKg)} of ${propellant(propellantId)}`))} more than it needs: that stays aboard and is counted when it is home again. What it costs to carry is not counted.`;
    case "engine change due":
      return `${stageOfCraft(name(plan.craft, finding.landerId), finding.stage)} ${neededEngines(finding.engineNumbers, finding.engines)} before ${sortie(finding.sortieId)} on ${formatDate(finding.at)}, which would take ${finding.exceeds.join(" and ")} over the rating.`;
    case "sortie check":
      return `${sortie(finding.sortieId)}: ${checkSentence(finding.check, (id) => name(plan.propellants, id))}.`;
    case "backdated loss": {
      const reason = plan.lossPeriods.find(({ id }) => id === finding.periodId)?.reason ?? "";
      return `${name(plan.tanks, finding.tankId)} has losses of this plan case alone${reason === "" ? "" : ` ("${reason}")`} that begin before the latest record on ${formatMinute(finding.recordAt)}: the books up to then were kept without them. Begin them after it, or make them hold for all plan cases.`;
    }
    case "does not balance":
      return `The forecast does not balance: ${
        Number.isFinite(finding.massKg)
          ? `${formatShortage(Math.abs(finding.massKg))} of ${propellant(finding.propellantId)} ${finding.massKg > 0 ? "come from nowhere" : "are lost without a cause"}`
          : `the mass of ${propellant(finding.propellantId)} is not a number`
      }. Nothing that it says may be relied on; export the ledger and report the fault.`;
    case "circular flights":
      return `${finding.flightIds.map(flight).join(", ")} take no time and feed each other at one instant: nothing says which comes first, so the forecast leaves them out.`;
    case "overdue":
      return `${name([...plan.flights, ...plan.sorties], finding.id)} should have gone or come before ${formatDate(finding.at)} and no record says so: the forecast takes it to have gone as planned.`;
    case "hull overlap":
      return `${name(plan.craft, finding.craftId)} cannot fly ${flight(finding.flightIds[0])} and ${flight(finding.flightIds[1])} at once: it leaves the port on ${formatMinute(finding.busyUntilAt)} and is to depart on ${formatMinute(finding.departAt)}.`;
    case "turnaround not kept":
      return `${name(plan.craft, finding.craftId)} is ready again on ${formatMinute(finding.readyAt)} after ${flight(finding.flightIds[0])}; ${flight(finding.flightIds[1])} departs on ${formatMinute(finding.departAt)}, ${formatNumber((finding.readyAt - finding.departAt) / DAY_MS, 1)} days too early.`;
    case "hull was lost":
      return `${name(plan.craft, finding.craftId)} was lost with ${flight(finding.flightIds[0])} and cannot fly ${flight(finding.flightIds[1])}.`;
    case "time away differs":
      return `${sortie(finding.sortieId)} is away for ${formatNumber(finding.statedDays, 1)} days, its profile for ${formatNumber(finding.profileDays, 1)}${extraWords(finding.extra, propellant)}.`;
    case "near-equal names":
      return finding.names[0] === finding.names[1]
        ? `Two ${finding.of === "craft" ? "vehicles" : `${finding.of}s`} are called "${finding.names[0]}".`
        : `The names "${finding.names[0]}" and "${finding.names[1]}" of two ${finding.of === "craft" ? "vehicles" : `${finding.of}s`} are easily taken for one.`;
    case "unusual load": {
      const times = Math.max(finding.massKg / finding.usualKg, finding.usualKg / finding.massKg);
      return `${name([...plan.flights, ...plan.sorties], finding.id)} is to load ${formatMass(finding.massKg)} of ${propellant(finding.propellantId)}: ${formatNumber(times)} times ${finding.massKg < finding.usualKg ? "less" : "more"} than its class's usual ${formatMass(finding.usualKg)}.`;
    }
    case "far reading":
      return `${name(plan.tanks, finding.tankId)} read ${formatMass(finding.massKg)} on ${formatMinute(finding.at)}; the books say ${formatMass(finding.bookKg)}: ${formatNumber(Math.abs(finding.sigmas), 1)} σ ${finding.sigmas < 0 ? "below" : "above"}${finding.others === 0 ? "" : ` (and ${counted(finding.others, "further reading")} beyond 4 σ)`}.`;
    default:
      return missingCase(finding);
  }
};
