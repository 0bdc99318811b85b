/** What can be found: a name, what it is, and where it leads. Plain data, made anew for each plan. */
import type { ActionId, ActionState } from "../../app/contract/actions.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { PlanCase } from "../../app/entity/plan-case.ts";
import type { JournalEntry } from "../../app/ledger/journal.ts";
import { actionOf } from "../actions/registry.ts";
import { formatDate } from "../format/instant.ts";
import type { Selection, ViewId } from "../state/app-state.ts";

/** Where a found thing leads. */
export type Target =
  | {
      readonly kind: "selection";
      readonly selection: Selection;
      readonly view: ViewId;
      /** The stretch of time in which it stands; null: it has none. */
      readonly stretch: { readonly fromAt: number; readonly untilAt: number } | null;
    }
  | { readonly kind: "case"; readonly planCaseId: string }
  | { readonly kind: "action"; readonly action: ActionId };

export interface FindItem {
  /** Unique within a list. */
  readonly id: string;
  readonly name: string;
  /** What it is, and what tells it from others of its name: "flight, 2031-02-20, firm". Searched as well. */
  readonly what: string;
  readonly target: Target;
}

const selected = (
  kind: Selection["kind"],
  id: string,
  view: ViewId,
  stretch: { readonly fromAt: number; readonly untilAt: number } | null = null,
): Target => ({ kind: "selection", selection: { kind, id }, view, stretch });

/** Everything of a plan case that has a name. */
export const planItems = (plan: PlanSnapshot): readonly FindItem[] => {
  const nameOf = new Map([...plan.craft, ...plan.depots].map(({ id, name }) => [id, name]));
  const belonging = (id: string): string => nameOf.get(id) ?? id;
  return [
    ...plan.flights.map((flight) => ({
      id: `flight ${flight.id}`,
      name: flight.name,
      what: `flight to ${belonging(flight.depotId)}, arrives ${formatDate(flight.arriveAt)}, ${flight.status}`,
      target: selected("flight", flight.id, "timeline", { fromAt: flight.departAt, untilAt: flight.arriveAt }),
    })),
    ...plan.sorties.map((sortie) => ({
      id: `sortie ${sortie.id}`,
      name: sortie.name,
      what: `sortie of ${belonging(sortie.landerId)}, loads ${formatDate(sortie.loadAt)}, ${sortie.status}`,
      target: selected("sortie", sortie.id, "timeline", { fromAt: sortie.loadAt, untilAt: sortie.returnAt }),
    })),
    ...plan.depots.map(({ id, name }) => ({
      id: `depot ${id}`,
      name,
      what: "depot",
      target: selected("depot", id, "depots"),
    })),
    ...plan.tanks.map(({ id, name, ownerId }) => ({
      id: `tank ${id}`,
      name,
      what: `tank of ${belonging(ownerId)}`,
      target: selected("tank", id, "depots"),
    })),
    ...plan.craft.map(({ id, name }) => ({
      id: `craft ${id}`,
      name,
      what: "craft",
      target: selected("craft", id, "craft"),
    })),
    ...plan.craftClasses.map(({ id, name }) => ({
      id: `class ${id}`,
      name,
      what: "class of craft",
      target: selected("craftClass", id, "craft"),
    })),
  ];
};

export const caseItems = (cases: readonly PlanCase[]): readonly FindItem[] =>
  cases.map(({ id, name }) => ({
    id: `case ${id}`,
    name,
    what: "plan case",
    target: { kind: "case", planCaseId: id },
  }));

/** Commands and views as they stand now; what cannot be done now is left out. */
export const actionItems = (states: readonly ActionState[]): readonly FindItem[] =>
  states
    .filter(({ id, isEnabled }) => isEnabled && id !== "edit.find")
    .map(({ id, label }) => {
      const { menu, label: usual } = actionOf(id);
      return {
        id: `action ${id}`,
        name: (label ?? usual).replace("…", ""),
        what: menu === "View" ? "view" : `command, menu ${menu}`,
        target: { kind: "action", action: id },
      };
    });

export const entryItems = (entries: readonly JournalEntry[]): readonly FindItem[] =>
  entries.map(({ id, at, kind, note, author }) => ({
    id: `entry ${id}`,
    name: note === "" ? `Entry of ${formatDate(at)}` : (note.split("\n")[0] ?? ""),
    what: `journal entry, ${kind}, ${formatDate(at)}, ${author}`,
    target: selected("entry", id, "journal"),
  }));
