/** What the table of sorties has beside its fields: which are fixed by a record, and the new sortie of a pasted line. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { type Sortie, freshSortie } from "../../../app/entity/sortie.ts";
import { sheetColumnOf } from "../../../app/fields/field.ts";
import { sortieFields } from "../../../app/fields/sortie-fields.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { nextName } from "../../names/new-id.ts";
import type { NewRow } from "./write-cells.ts";
import type { CellSpec } from "./cell-spec.ts";
import { BY_RECORD, fieldCells } from "./field-cells.ts";

const begun = ({ status }: Sortie): string | null =>
  status === "departed" || status === "flown" || status === "stood down" ? BY_RECORD : null;
const over = ({ status }: Sortie): string | null => (status === "flown" || status === "stood down" ? BY_RECORD : null);

/** By the column's id, in the order in which they are to be written. */
export const sortieCells = (plan: PlanSnapshot): ReadonlyMap<string, CellSpec<Sortie>> =>
  fieldCells<Sortie, typeof sortieFields>(plan, sortieFields, ["name", "status"], { begun, over }, { demand: [] });

/** The cell of a property of a sortie in which the service found a fault; null: it has none. */
export const sortieColumnOf = (property: string): string | null =>
  sheetColumnOf(sortieFields, property.split(".")[0] ?? "");

/**
 * A sortie that a pasted line below the last one makes: campaign, lander and depot as of the sortie above, time away and
 * what it needs as of the lander's class, but for what the line says itself.
 */
export const newSortie = (
  plan: PlanSnapshot,
  above: Sortie,
  given: ReadonlyMap<string, string>,
  cells: ReadonlyMap<string, CellSpec<Sortie>>,
): NewRow<Sortie> => {
  if (!given.has("load")) return { ok: false, columnId: "load", fault: "A new sortie needs its loading." };
  const landerText = given.get("lander");
  const chosen =
    landerText === undefined ? null : cells.get("lander")?.put({ ...above, status: "planned" }, landerText);
  const landerId = chosen?.ok === true ? chosen.value.landerId : above.landerId;
  const craftClass = plan.craftClasses.find(({ id }) => id === plan.craft.find((row) => row.id === landerId)?.classId);
  const names = new Set(plan.sorties.map(({ name }) => name));
  return {
    ok: true,
    value: {
      ...above,
      ...freshSortie,
      name: nextName(above.name, names),
      landerId,
      loadAt: 0,
      returnAt: Math.round((craftClass?.tripDays ?? 0) * DAY_MS),
      demand: { kind: "class" },
    },
    finish: (sortie) => sortie,
  };
};

/** What new sorties have that their lines did not say. */
export const takenForSorties = (plan: PlanSnapshot, above: Sortie, given: ReadonlySet<string>): string => {
  const nameOf = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    rows.find((row) => row.id === id)?.name ?? id;
  const taken = [
    ...(given.has("campaign") ? [] : [`of ${nameOf(plan.campaigns, above.campaignId)}`]),
    ...(given.has("lander") ? [] : [`flown by ${nameOf(plan.craft, above.landerId)}`]),
    ...(given.has("depot") ? [] : [`from ${nameOf(plan.depots, above.depotId)}`]),
  ];
  const ofClass = [...(given.has("return") ? [] : ["time away"]), "propellant needed"];
  return [
    ...(taken.length === 0 ? [] : [`As ${above.name}: ${taken.join(", ")}.`]),
    `By the lander’s class: ${ofClass.join(", ")}.`,
  ].join(" ");
};
