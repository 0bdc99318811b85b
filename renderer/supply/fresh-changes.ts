/** Changes of a cure made fit to be kept: what they add gets a name, an id and a key of its own in this plan case. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Change } from "../../app/entity/entities.ts";
import { nextName } from "../names/new-id.ts";
import { withNewId } from "../forms/place-entity.ts";

/** The name of the last of its kind with the next number, as a person would go on: "Packhorse 10". */
const namedOn = (names: readonly string[], stem: string): string => {
  const numbered = names.filter((name) => name.startsWith(`${stem} `));
  return numbered.length === 0 ? stem : nextName(numbered.at(-1) ?? stem, new Set(names));
};

export const freshChanges = (plan: PlanSnapshot, changes: readonly Change[]): readonly Change[] => {
  const hullIds = new Map<string, string>();
  return changes.map((change): Change => {
    if (change.op !== "put") return change;
    if (change.kind === "craft" && !plan.craft.some(({ id }) => id === change.value.id)) {
      const name = namedOn(
        plan.craft.map((row) => row.name),
        change.value.name,
      );
      const value = withNewId(plan, "craft", { ...change.value, name });
      hullIds.set(change.value.id, value.id);
      return { ...change, value };
    }
    if (change.kind === "flight" && !plan.flights.some(({ id }) => id === change.value.id)) {
      const classId = plan.craft.find(({ id }) => id === change.value.craftId)?.classId;
      const stem = plan.craftClasses.find(({ id }) => id === classId)?.name ?? change.value.name;
      const name = namedOn(
        plan.flights.map((row) => row.name),
        stem,
      );
      const craftId = hullIds.get(change.value.craftId) ?? change.value.craftId;
      return { ...change, value: withNewId(plan, "flight", { ...change.value, name, craftId }) };
    }
    return change;
  });
};
