/** The rules that a plan keeps, whoever changes it: every door leads through {@link checkPlan}. */
import { PlanningError } from "../../ground/failure.ts";
import { checkProfiles, profileFaults } from "../../sortie/plan-rule.ts";
import { type Change, type Entity, type EntityKind, type EntitySet, entityKinds } from "../../entity/entities.ts";
import { findEntity } from "../../entity/entity-index.ts";
import { craftClassRules } from "./craft-class-rule.ts";
import { dependants } from "./dependant.ts";
import { depotRules, lossPeriodRules, planCaseRules } from "./depot-rule.ts";
import { flightRules } from "./flight-rule.ts";
import { danglingReferences } from "./reference.ts";
import { removalFault } from "./removal-rule.ts";
import { riskInputRules } from "./risk-input-rule.ts";
import type { Fault, Rule } from "./rule.ts";
import { campaignRules, sortieRules } from "./sortie-rule.ts";
import { tankRules } from "./tank-rule.ts";

const rules: { readonly [K in EntityKind]: readonly Rule<K>[] } = {
  propellant: [],
  depot: depotRules,
  source: [],
  craftClass: craftClassRules,
  profile: [],
  craft: [],
  tank: tankRules,
  planCase: planCaseRules,
  lossPeriod: lossPeriodRules,
  campaign: campaignRules,
  flight: flightRules,
  sortie: sortieRules,
  riskInput: riskInputRules,
};

/** Faults of one row; rules that follow references are left out where one leads nowhere. */
export const rowFaults = <K extends EntityKind>(kind: K, row: Entity<K>, plan: EntitySet): readonly Fault[] => {
  const dangling = danglingReferences(kind, row, plan);
  return dangling.length > 0 ? dangling : rules[kind].flatMap((rule) => rule(row, plan));
};

const refuse = (fault: Fault | undefined, index: string): void => {
  if (fault === undefined) return;
  const field = fault.property === null ? index : `${index}.${fault.property}`;
  throw new PlanningError("refused", fault.message, field);
};

/**
 * Checks what the changes touch, and what depends on that, in the plan as it would be. Throws "refused" with the first
 * fault: a sentence, and the field in the changes ("changes.0.value.arriveAt").
 */
export const checkPlan = (after: EntitySet, changes: readonly Change[], before: EntitySet): void => {
  const removal = removalFault(after, changes, before);
  if (removal !== null) throw new PlanningError("refused", removal.message, `changes.${removal.index}.id`);
  const checked = new Set<string>();
  changes.forEach((change, index) => {
    if (change.op === "remove") return;
    refuse(rowFaults(change.kind, change.value, after)[0], `changes.${index}.value`);
    checked.add(`${change.kind}/${change.value.id}`);
  });
  changes.forEach((change, index) => {
    // Nothing can depend on a row that was not there.
    if (change.op === "remove" || findEntity(before, change.kind, change.value.id) === null) return;
    for (const { kind, row } of dependants(after, change.kind, change.value.id)) {
      if (checked.has(`${kind}/${row.id}`)) continue;
      checked.add(`${kind}/${row.id}`);
      const fault = rowFaults<EntityKind>(kind, row, after)[0];
      refuse(fault === undefined ? undefined : { property: null, message: fault.message }, `changes.${index}.value`);
    }
  });
  checkProfiles(after, changes);
};

/** What is wrong in a whole plan, a sentence each; empty: nothing. */
export const planFaults = (plan: EntitySet): readonly string[] => [
  ...entityKinds.flatMap((kind) => plan[kind].flatMap((row) => rowFaults(kind, row, plan).map((f) => f.message))),
  ...profileFaults(plan).map(({ message }) => message),
];
