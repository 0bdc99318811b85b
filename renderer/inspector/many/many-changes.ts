/** What is done with several flights and sorties at once: the changes of one step, or why it cannot be. Pure. */
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import type { Change } from "../../../app/entity/entities.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { formatNumber, formatSigned } from "../../format/number.ts";
import { withNewId } from "../../forms/place-entity.ts";
import { countWords } from "../../names/entity-words.ts";
import { nextName } from "../../names/new-id.ts";
import type { ManyRef } from "../../state/app-state.ts";

export type ManyRow =
  | { readonly kind: "flight"; readonly row: Flight }
  | { readonly kind: "sortie"; readonly row: Sortie };

/** Statuses that a person sets by hand, for flights; a sortie is never firm. */
export const handStatuses = ["planned", "firm", "cancelled"] as const;
export type HandStatus = (typeof handStatuses)[number];

/** Those of them that are in the plan, in order of time. */
export const rowsOfMany = (plan: PlanSnapshot, refs: readonly ManyRef[]): readonly ManyRow[] => {
  const flights = new Set(refs.flatMap(({ kind, id }) => (kind === "flight" ? [id] : [])));
  const sorties = new Set(refs.flatMap(({ kind, id }) => (kind === "sortie" ? [id] : [])));
  const rows: ManyRow[] = [
    ...plan.flights.filter(({ id }) => flights.has(id)).map((row) => ({ kind: "flight" as const, row })),
    ...plan.sorties.filter(({ id }) => sorties.has(id)).map((row) => ({ kind: "sortie" as const, row })),
  ];
  return rows.toSorted((a, b) => beginsAt(a) - beginsAt(b));
};

const beginsAt = (each: ManyRow): number => (each.kind === "flight" ? each.row.departAt : each.row.loadAt);
const endsAt = (each: ManyRow): number =>
  each.kind === "flight" ? each.row.arriveAt + each.row.berthDays * DAY_MS : each.row.returnAt;

/** From when the first begins to when the last ends. */
export const spanOf = (rows: readonly ManyRow[]): { readonly fromAt: number; readonly untilAt: number } => ({
  fromAt: Math.min(...rows.map(beginsAt)),
  untilAt: Math.max(...rows.map(endsAt)),
});

/** "3 flights and 2 sorties". */
export const manyWords = (rows: readonly ManyRow[]): string => {
  const count = (kind: ManyRow["kind"]): number => rows.filter((row) => row.kind === kind).length;
  return (["flight", "sortie"] as const)
    .filter((kind) => count(kind) > 0)
    .map((kind) => countWords(kind, count(kind)))
    .join(" and ");
};

/** Planned or under way: what can still be moved, by its end alone where it has begun. */
export const isMovable = ({ row: { status } }: ManyRow): boolean =>
  status === "planned" || status === "firm" || status === "departed";

/** The first instant of it that is still to come. */
const aheadAt = (each: ManyRow): number => {
  if (each.row.status !== "departed") return beginsAt(each);
  return each.kind === "flight" ? each.row.arriveAt : each.row.returnAt;
};

const shifted = (each: ManyRow, ms: number): Change => {
  const hasBegun = each.row.status === "departed";
  if (each.kind === "sortie") {
    const { row } = each;
    const loadAt = hasBegun ? row.loadAt : row.loadAt + ms;
    return { op: "put", kind: "sortie", value: { ...row, loadAt, returnAt: row.returnAt + ms } };
  }
  const { row } = each;
  const departAt = hasBegun ? row.departAt : row.departAt + ms;
  return { op: "put", kind: "flight", value: { ...row, departAt, arriveAt: row.arriveAt + ms } };
};

/** Whole days by which all that can be moved may move together: not into the recorded past, not beyond the plan's end. */
export const roomToShift = (plan: PlanSnapshot, rows: readonly ManyRow[]): { least: number; most: number } => {
  const movable = rows.filter(isMovable);
  const least = Math.max(-36_500, ...movable.map((each) => Math.ceil((plan.asOfAt - aheadAt(each)) / DAY_MS)));
  const most = Math.min(36_500, ...movable.map((each) => Math.floor((plan.horizonAt - endsAt(each)) / DAY_MS)));
  // What lies beyond already does not keep the rest from staying where it is.
  return { least: Math.min(0, least), most: Math.max(0, most) };
};

export interface ManyStep {
  /** For the undo menu. */
  readonly label: string;
  readonly changes: readonly Change[];
}

/** Moves all that can be moved by so many days. `days` lies within {@link roomToShift}. */
export const shiftMany = (rows: readonly ManyRow[], days: number): ManyStep => {
  const movable = rows.filter(isMovable);
  return {
    label: `Move ${manyWords(movable)} by ${formatSigned(days, 0)} ${Math.abs(days) === 1 ? "day" : "days"}`,
    changes: days === 0 ? [] : movable.map((each) => shifted(each, days * DAY_MS)),
  };
};

/** Statuses that all of them may have by hand. */
export const statusesFor = (rows: readonly ManyRow[]): readonly HandStatus[] =>
  handStatuses.filter((status) => status !== "firm" || rows.every(({ kind }) => kind === "flight"));

/** What happened has its status from its records, and keeps it. */
export const isStatusOpen = ({ row: { status } }: ManyRow): boolean =>
  status === "planned" || status === "firm" || status === "cancelled";

export const setStatusOfMany = (rows: readonly ManyRow[], status: HandStatus): ManyStep => {
  const open = rows.filter((each) => isStatusOpen(each) && each.row.status !== status);
  return {
    label: `Set ${manyWords(open)} to ${status}`,
    changes: open.map((each) => ({ op: "put", kind: each.kind, value: { ...each.row, status } }) as Change),
  };
};

/** Whole days by which copies come later so that none lies on any of the originals, nor before the as-of instant. */
export const clearOfOriginals = (plan: PlanSnapshot, rows: readonly ManyRow[]): number => {
  const { fromAt, untilAt } = spanOf(rows);
  return Math.max(1, Math.ceil((untilAt - fromAt) / DAY_MS), Math.ceil((plan.asOfAt - fromAt) / DAY_MS));
};

/** Most whole days by which copies may come later, with the last still within the plan. */
export const mostForCopies = (plan: PlanSnapshot, rows: readonly ManyRow[]): number =>
  Math.floor((plan.horizonAt - spanOf(rows).untilAt) / DAY_MS);

/** Copies of all of them, so many days later, as planned, under names and keys of their own. */
export const copyMany = (
  plan: PlanSnapshot,
  rows: readonly ManyRow[],
  days: number,
): ManyStep & { readonly copies: readonly ManyRef[] } => {
  const names = new Set([...plan.flights, ...plan.sorties].map(({ name }) => name));
  const changes: Change[] = [];
  let grown = plan;
  for (const { kind, row } of rows) {
    const name = nextName(row.name, names);
    names.add(name);
    const copy =
      kind === "flight"
        ? { ...row, name, status: "planned", lostAt: null }
        : { ...row, name, status: "planned", stoodDownAt: null };
    const placed = withNewId(grown, kind, copy as never) as Flight & Sortie;
    const change = shifted({ kind, row: placed }, days * DAY_MS);
    changes.push(change);
    grown = applyChanges(grown, [change]);
  }
  return {
    label: `Copy ${manyWords(rows)}, ${formatNumber(days)} ${days === 1 ? "day" : "days"} later`,
    changes,
    copies: changes.flatMap((change) =>
      change.op === "put" && (change.kind === "flight" || change.kind === "sortie")
        ? [{ kind: change.kind, id: change.value.id }]
        : [],
    ),
  };
};

/** It and all that begins no earlier and can still be moved. */
export const fromHereOn = (plan: PlanSnapshot, { kind, id }: ManyRef): readonly ManyRef[] => {
  const [here] = rowsOfMany(plan, [{ kind, id }]);
  if (here === undefined) return [];
  const all: readonly ManyRow[] = [
    ...plan.flights.map((row) => ({ kind: "flight" as const, row })),
    ...plan.sorties.map((row) => ({ kind: "sortie" as const, row })),
  ];
  return all
    .filter((each) => each.row.id === id || (isMovable(each) && beginsAt(each) >= beginsAt(here)))
    .map((each) => ({ kind: each.kind, id: each.row.id }));
};
