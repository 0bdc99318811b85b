/** What each kind of thing is called, and what one of them is called. */
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { inputTitle } from "../../app/risk/input-words.ts";
import { kindWords } from "../../app/ledger/change-line.ts";

const many: Partial<Record<EntityKind, string>> = { craft: "craft", craftClass: "craft classes", sortie: "sorties" };

/** "1 flight", "3 sorties". */
export const countWords = (kind: EntityKind, count: number): string =>
  `${count} ${count === 1 ? kindWords[kind] : (many[kind] ?? `${kindWords[kind]}s`)}`;

/** The rows of a plan, by kind. */
export const rowsOf = <K extends EntityKind>(plan: PlanSnapshot, kind: K): readonly Entity<K>[] => {
  const lists = {
    propellant: plan.propellants,
    depot: plan.depots,
    source: plan.sources,
    craftClass: plan.craftClasses,
    profile: plan.profiles,
    craft: plan.craft,
    tank: plan.tanks,
    planCase: [plan.planCase],
    lossPeriod: plan.lossPeriods,
    campaign: plan.campaigns,
    flight: plan.flights,
    sortie: plan.sorties,
    riskInput: plan.riskInputs,
  } as const;
  return lists[kind] as unknown as readonly Entity<K>[];
};

export const findRow = <K extends EntityKind>(plan: PlanSnapshot, kind: K, id: string): Entity<K> | undefined =>
  rowsOf(plan, kind).find((row) => row.id === id);

/** A depot's or craft's name; the id where there is none. */
export const ownerName = (plan: PlanSnapshot, ownerId: string): string =>
  plan.depots.find((depot) => depot.id === ownerId)?.name ??
  plan.craft.find((craft) => craft.id === ownerId)?.name ??
  ownerId;

/** "Tarn hydrogen main": a tank's name with its owner's, once. */
export const tankName = (plan: PlanSnapshot, tankId: string): string => {
  const tank = findRow(plan, "tank", tankId);
  if (tank === undefined) return tankId;
  const owner = ownerName(plan, tank.ownerId);
  return tank.name.includes(owner) ? tank.name : `${owner} ${tank.name}`;
};

/** What a row of the plan is called, whatever it is. */
export const subjectNames = (plan: PlanSnapshot): ((id: string) => string) => {
  const names = new Map<string, string>([
    ...plan.craftClasses.map(({ id, name }) => [id, name] as const),
    ...plan.flights.map(({ id, name }) => [id, name] as const),
    ...plan.sorties.map(({ id, name }) => [id, name] as const),
    ...plan.tanks.map(({ id }) => [id, tankName(plan, id)] as const),
  ]);
  return (id) => names.get(id) ?? id;
};

/** What one thing is called in a sentence. */
export const nameOf = <K extends EntityKind>(plan: PlanSnapshot, kind: K, row: Entity<K>): string => {
  if (kind === "lossPeriod") {
    const period = row as unknown as Entity<"lossPeriod">;
    return `${tankName(plan, period.tankId)}, ${period.reason}`;
  }
  if (kind === "tank") {
    // The row as it is given: one that is being added is not in the plan yet, one that is being renamed is under its old name.
    const tanks = [...plan.tanks.filter(({ id }) => id !== row.id), row as unknown as Entity<"tank">];
    return tankName({ ...plan, tanks }, row.id);
  }
  if (kind === "riskInput") return inputTitle((row as unknown as Entity<"riskInput">).uncertainty, subjectNames(plan));
  return (row as { readonly name?: string }).name ?? row.id;
};
