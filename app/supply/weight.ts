/**
 * What each finding does to the verdict: it *breaks* it, *conditions* it ("Go, if …") or is a *note*. The one table; a new
 * kind of finding does not compile until it stands here.
 */
import { stageOfCraft } from "../sortie/engine-words.ts";
import { formatMass } from "../format/mass.ts";
import { formatDate } from "../format/time.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { SheetCheck } from "../sortie/checks.ts";
import { checkSentence } from "../sortie/check-sentence.ts";
import { listed } from "../words/counted.ts";
import { missingCase } from "../ground/missing-case.ts";
import type { PlanFinding, SortieSupply, SupplyStatus } from "./answer.ts";
import { nameIn } from "../words/named.ts";

/** Heaviest first. */
export type Weight = "breaks" | "conditions" | "note";

const conditions = "conditions";

/** A check that no plan can meet breaks; one that is a risk to be accepted conditions. */
const weightOfCheck = (check: SheetCheck): Weight => {
  const { kind } = check;
  switch (kind) {
    case "tank volume":
    case "cache volume":
    case "thrust to weight":
    case "ignitions":
    case "burn time":
      return "breaks";
    case "one engine out":
    case "hover throttle":
    case "vertical phase":
      return conditions;
    // Stated and not cleared, it flies into the ground; not stated, nobody has looked.
    case "terrain clearance":
      return check.clearM === null ? "note" : "breaks";
    // It flies as it is; another day would only take less.
    case "surface stay":
      return "note";
    default:
      return missingCase(kind);
  }
};

export const weightOf = (finding: PlanFinding): Weight => {
  switch (finding.kind) {
    case "lander overlap":
    case "lander cannot hold":
    case "hull overlap":
    case "turnaround not kept":
    case "hull was lost":
    case "circular flights":
    case "does not balance":
      return "breaks";
    case "port conflict":
    case "tank empty":
    case "below reserve":
    case "origin ran dry":
    case "engine change due":
    case "overdue":
    case "time away differs":
    case "near-equal names":
    case "unusual load":
    case "backdated loss":
      return conditions;
    case "far reading":
      return finding.isLatest ? conditions : "note";
    case "sortie check":
      return weightOfCheck(finding.check);
    case "overflow":
    case "full depot":
    case "unused flight":
    case "surplus aboard":
      return "note";
    default:
      return missingCase(finding);
  }
};

/** What the status of a sortie does to the verdict; null: nothing. */
export const weightOfStatus = (status: SupplyStatus): Weight | null => {
  switch (status) {
    case "short":
    case "not stated":
      return "breaks";
    case "thin":
      return conditions;
    case "supplied":
      return null;
    default:
      return missingCase(status);
  }
};

export const isShort = ({ status }: SortieSupply): boolean => status === "short";

/** What must be so for the plan to hold all the same, to follow "if": of findings that condition; else the empty text. */
export const conditionOf = (plan: PlanSnapshot, finding: PlanFinding): string => {
  const name = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    nameIn(rows, id);
  const flight = (id: string): string => name(plan.flights, id);
  switch (finding.kind) {
    case "port conflict":
      return `one of ${listed(finding.flightIds.map(flight))} keeps off ${name(plan.depots, finding.depotId)}'s ports on ${formatDate(finding.fromAt)}`;
    case "tank empty":
      return `${name(plan.tanks, finding.tankId)} may run empty on ${formatDate(finding.fromAt)}`;
    case "below reserve":
      return `the ${name(plan.propellants, finding.propellantId).toLowerCase()} reserve at ${name(plan.depots, finding.depotId)} may be used from ${formatDate(finding.fromAt)}`;
    case "origin ran dry":
      return `${flight(finding.flightId)} may depart with less than planned`;
    case "engine change due":
      return `engines of ${stageOfCraft(name(plan.craft, finding.landerId), finding.stage)} are changed before ${name(plan.sorties, finding.sortieId)}`;
    case "overdue":
      return `${name([...plan.flights, ...plan.sorties], finding.id)} went as assumed`;
    case "time away differs":
      return `the dates of ${name(plan.sorties, finding.sortieId)} are right and its profile is made to agree`;
    case "near-equal names":
      return `"${finding.names[0]}" and "${finding.names[1]}" are really two`;
    case "unusual load":
      return `${name([...plan.flights, ...plan.sorties], finding.id)} is really meant to load ${formatMass(finding.massKg)} of ${name(plan.propellants, finding.propellantId).toLowerCase()}`;
    case "backdated loss":
      return `${name(plan.tanks, finding.tankId)} really lost before ${formatDate(finding.recordAt)} what this plan case alone says`;
    case "far reading":
      return `the reading of ${name(plan.tanks, finding.tankId)} on ${formatDate(finding.at)} is explained`;
    case "sortie check":
      return `this is accepted: ${name(plan.sorties, finding.sortieId)}, ${checkSentence(finding.check, (id) => name(plan.propellants, id)).replace(/^\w/, (letter) => letter.toLowerCase())}`;
    case "lander overlap":
    case "lander cannot hold":
    case "hull overlap":
    case "turnaround not kept":
    case "hull was lost":
    case "circular flights":
    case "does not balance":
    case "overflow":
    case "full depot":
    case "unused flight":
    case "surplus aboard":
      return "";
    default:
      return missingCase(finding);
  }
};
