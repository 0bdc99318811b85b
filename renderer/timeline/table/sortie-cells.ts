/** Which cells of the table of sorties are written, and what each makes of the sortie: the same as its form. */
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { nextName } from "../../names/new-id.ts";
import type { NewRow } from "./write-cells.ts";
import { type CellSpec, choiceCell, instantCell, textCell } from "./cell-spec.ts";

const statuses = ["planned", "cancelled"].map((id) => ({ id, name: id }));

const BY_RECORD = "It has happened: its records say so. Reverse the record in the journal to change it.";

const begun = ({ status }: Sortie): string | null =>
  status === "departed" || status === "flown" || status === "stood down" ? BY_RECORD : null;
const over = ({ status }: Sortie): string | null => (status === "flown" || status === "stood down" ? BY_RECORD : null);

/** By the column's id, in the order in which they are to be written: a loading moves the return along. */
export const sortieCells = (plan: PlanSnapshot): ReadonlyMap<string, CellSpec<Sortie>> => {
  const landers = plan.craft.filter(
    ({ classId }) => plan.craftClasses.find(({ id }) => id === classId)?.role === "lander",
  );
  const cells: readonly (readonly [string, CellSpec<Sortie>])[] = [
    [
      "name",
      textCell({
        heading: "Sortie",
        words: "name",
        most: 80,
        get: ({ name }) => name,
        set: (sortie, name) => ({ ...sortie, name }),
      }),
    ],
    [
      "status",
      choiceCell({
        heading: "Status",
        words: "status",
        what: "status",
        choices: statuses,
        get: ({ status }) => status,
        set: (sortie, status) => ({ ...sortie, status: status as Sortie["status"] }),
        fixed: begun,
      }),
    ],
    [
      "lander",
      choiceCell({
        heading: "Lander",
        words: "lander",
        what: "lander",
        choices: landers,
        get: ({ landerId }) => landerId,
        set: (sortie, landerId) => ({ ...sortie, landerId }),
        fixed: begun,
      }),
    ],
    [
      "campaign",
      choiceCell({
        heading: "Campaign",
        words: "campaign",
        what: "campaign",
        choices: plan.campaigns,
        get: ({ campaignId }) => campaignId,
        set: (sortie, campaignId) => ({ ...sortie, campaignId }),
        fixed: () => null,
      }),
    ],
    [
      "depot",
      choiceCell({
        heading: "Depot",
        words: "depot",
        what: "depot",
        choices: plan.depots,
        get: ({ depotId }) => depotId,
        set: (sortie, depotId) => ({ ...sortie, depotId }),
        fixed: begun,
      }),
    ],
    [
      "load",
      instantCell({
        heading: "Loads",
        words: "loading",
        get: ({ loadAt }) => loadAt,
        set: (sortie, loadAt) => ({ ...sortie, loadAt, returnAt: sortie.returnAt + loadAt - sortie.loadAt }),
        fixed: begun,
      }),
    ],
    [
      "return",
      instantCell({
        heading: "Returns",
        words: "return",
        get: ({ returnAt }) => returnAt,
        set: (sortie, returnAt) => ({ ...sortie, returnAt }),
        fixed: over,
      }),
    ],
  ];
  return new Map(cells);
};

const columns: Readonly<Record<string, string>> = {
  name: "name",
  status: "status",
  landerId: "lander",
  campaignId: "campaign",
  depotId: "depot",
  loadAt: "load",
  returnAt: "return",
};

/** The cell of a property of a sortie in which the service found a fault; null: it has none. */
export const sortieColumnOf = (property: string): string | null => columns[property.split(".")[0] ?? ""] ?? null;

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
      name: nextName(above.name, names),
      landerId,
      loadAt: 0,
      returnAt: Math.round((craftClass?.tripDays ?? 0) * DAY_MS),
      demand: { kind: "class" },
      status: "planned",
      note: "",
      stoodDownAt: null,
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
