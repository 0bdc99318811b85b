/** Cells written into a table of flights or of sorties, as the changes of one step; or which of them cannot be, and why. Pure. */
import { applyChanges } from "../../../app/entity/plan-changes.ts";
import type { Change } from "../../../app/entity/entities.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { bareName } from "../../../app/supply/near-equal-names.ts";
import { checkEntity } from "../../editing/editing.ts";
import { withNewId } from "../../forms/place-entity.ts";
import type { CellRefusal, CellWrite } from "../../widgets/data-table/sheet.ts";
import type { CellSpec } from "./cell-spec.ts";

type RowOf = { readonly flight: Flight; readonly sortie: Sortie };
type SheetKind = keyof RowOf;

/** A new row before its own cells are laid over it, and what is done with it after that. */
export type NewRow<E> =
  | { readonly ok: true; readonly value: E; readonly finish: (row: E) => E }
  | { readonly ok: false; readonly columnId: string; readonly fault: string };

export interface SheetRules<K extends SheetKind> {
  readonly kind: K;
  readonly cells: ReadonlyMap<string, CellSpec<RowOf[K]>>;
  /** Whose context new rows take; null: there is none, and no row can be added. */
  readonly above: RowOf[K] | null;
  readonly fresh: (plan: PlanSnapshot, above: RowOf[K], given: ReadonlyMap<string, string>) => NewRow<RowOf[K]>;
  readonly columnOf: (property: string, row: RowOf[K]) => string | null;
}

export interface WrittenCells<E> {
  readonly refusals: readonly CellRefusal[];
  readonly changes: readonly Change[];
  readonly added: readonly E[];
  /** Columns that lines of new rows gave, any of them. */
  readonly given: ReadonlySet<string>;
  readonly cellCount: number;
  /** Names that two rows have after it. */
  readonly doubles: readonly string[];
}

const linesOf = (cells: readonly CellWrite[]): readonly (readonly CellWrite[])[] => [
  ...Map.groupBy(cells, ({ line }) => line).values(),
];

const rowsOfKind = <K extends SheetKind>(plan: PlanSnapshot, kind: K): readonly RowOf[K][] =>
  (kind === "flight" ? plan.flights : plan.sorties) as unknown as readonly RowOf[K][];

/** All or nothing: with one refusal there are no changes. */
export const writeCells = <K extends SheetKind>(
  plan: PlanSnapshot,
  rules: SheetRules<K>,
  cells: readonly CellWrite[],
): WrittenCells<RowOf[K]> => {
  type E = RowOf[K];
  const { kind } = rules;
  const refusals: CellRefusal[] = [];
  const changes: Change[] = [];
  const added: E[] = [];
  const given = new Set<string>();
  const order = [...rules.cells.keys()];
  let grown = plan;
  for (const line of linesOf(cells)) {
    const rowId = line[0]?.rowId ?? null;
    const lineNo = (line[0]?.line ?? 0) + 1;
    const texts = new Map(line.map(({ columnId, text }) => [columnId, text]));
    const refuse = (name: string, columnId: string | null, reason: string): void => {
      const heading = columnId === null ? "" : (rules.cells.get(columnId)?.heading ?? columnId);
      refusals.push({ rowId, columnId, where: heading === "" ? name : `${name}, ${heading}`, reason });
    };
    let row: E;
    let finish = (made: E): E => made;
    if (rowId === null) {
      if (rules.above === null) {
        refuse(`Row ${lineNo}`, null, "There is no row above whose context a new one could take.");
        continue;
      }
      const fresh = rules.fresh(grown, rules.above, texts);
      if (!fresh.ok) {
        refuse(texts.get("name") ?? `Row ${lineNo}`, fresh.columnId, fresh.fault);
        continue;
      }
      row = fresh.value;
      finish = fresh.finish;
      for (const columnId of texts.keys()) given.add(columnId);
    } else {
      const known = rowsOfKind(grown, kind).find(({ id }) => id === rowId);
      if (known === undefined) {
        refuse(`Row ${lineNo}`, null, "It is not in the plan any more.");
        continue;
      }
      row = known;
    }
    const name = rowId === null ? (texts.get("name") ?? row.name) : row.name;
    const asFound = row;
    let isWhole = true;
    for (const columnId of order) {
      const text = texts.get(columnId);
      const spec = rules.cells.get(columnId);
      if (text === undefined || spec === undefined) continue;
      const fixed = rowId === null ? null : spec.fixed(asFound);
      const put = fixed === null ? spec.put(row, text) : { ok: false as const, fault: fixed };
      if (put.ok) row = put.value;
      else {
        isWhole = false;
        refuse(name, columnId, put.fault);
      }
    }
    if (!isWhole) continue;
    row = finish(row);
    if (rowId === null) row = withNewId(grown, kind, row as never) as unknown as E;
    const broken = checkEntity(kind, row as never);
    if (broken !== null) {
      refuse(name, rules.columnOf(broken.field, row), broken.message);
      continue;
    }
    const change = { op: "put", kind, value: row } as unknown as Change;
    changes.push(change);
    grown = applyChanges(grown, [change]);
    if (rowId === null) added.push(row);
  }
  const written = new Set(
    changes.flatMap((change) => (change.op === "put" ? [(change.value as { readonly id: string }).id] : [])),
  );
  const counts = Map.groupBy(rowsOfKind(grown, kind), (row) => bareName(row.name));
  const named = cells.some(({ columnId }) => columnId === "name");
  const doubles = named
    ? [...counts.values()].flatMap((rows) => {
        const [first] = rows;
        return first !== undefined && rows.length > 1 && rows.some(({ id }) => written.has(id)) ? [first.name] : [];
      })
    : [];
  const isRefused = refusals.length > 0;
  return {
    refusals,
    changes: isRefused ? [] : changes,
    added: isRefused ? [] : added,
    given,
    cellCount: cells.length,
    doubles: isRefused ? [] : doubles,
  };
};
