/** The tables of flights and sorties as sheets: what is written into them becomes one step of the plan that can be undone. */
import type { Failure } from "../../../app/ground/failure.ts";
import type { Change } from "../../../app/entity/entities.ts";
import type { Flight } from "../../../app/entity/flight.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Sortie } from "../../../app/entity/sortie.ts";
import { countWords } from "../../names/entity-words.ts";
import { useApp, useSession } from "../../state/use-session.ts";
import type { CellRefusal, CellWrite, Sheet, WrittenBy, Written } from "../../widgets/data-table/sheet.ts";
import { flightCells, flightColumnOf, newFlight, takenForFlights } from "./flight-cells.ts";
import { newSortie, sortieCells, sortieColumnOf, takenForSorties } from "./sortie-cells.ts";
import { type SheetRules, type WrittenCells, writeCells } from "./write-cells.ts";

/** An undo label has 120 characters at most. */
const MAX_LABEL = 120;
const NOTHING: Promise<readonly CellRefusal[]> = Promise.resolve([]);

interface Named {
  readonly id: string;
  readonly name: string;
}

const nameOfChange = (change: Change | undefined): string =>
  change?.op === "put" ? ((change.value as Partial<Named>).name ?? "") : "";

/** "Change departure of Drover 3", "Paste 12 cells of 4 flights". */
const labelOf = (kind: "flight" | "sortie", by: WrittenBy, what: string, written: WrittenCells<Named>): string => {
  const [first] = written.changes;
  const count = `${written.cellCount} ${written.cellCount === 1 ? "cell" : "cells"}`;
  const words = {
    typed: `Change ${what} of ${nameOfChange(first)}`,
    pasted: `Paste ${count} of ${countWords(kind, written.changes.length)}`,
    filled: `Fill ${count} of ${countWords(kind, written.changes.length)}`,
  };
  return words[by].slice(0, MAX_LABEL);
};

/** What the service refused, at the cell where it lies. */
const refusalOf = (
  failure: Failure,
  changes: readonly Change[],
  columnOf: (property: string, row: never) => string | null,
): CellRefusal => {
  const [, index = "", property = ""] = /^changes\.(\d+)\.(?:value\.)?(.*)$/.exec(failure.field ?? "") ?? [];
  const change = changes[Number(index)];
  const row = index !== "" && change?.op === "put" ? (change.value as unknown as Named) : null;
  return {
    rowId: row?.id ?? null,
    columnId: row === null ? null : columnOf(property, row as never),
    where: row?.name ?? "The plan",
    reason: failure.message,
  };
};

interface PlanSheet<K extends "flight" | "sortie"> {
  /** The rules by the plan as it is at the moment of writing. */
  readonly rules: (plan: PlanSnapshot) => SheetRules<K>;
  readonly taken: (plan: PlanSnapshot, given: ReadonlySet<string>) => string;
}

const usePlanSheet = <K extends "flight" | "sortie">(kind: K, { rules, taken }: PlanSheet<K>): Sheet => {
  const session = useSession();
  const closed = useApp((state) => state.ledger?.readOnlyBecause ?? null);
  const isTrial = useApp((state) => state.trial !== null);
  const write = (cells: readonly CellWrite[], by: WrittenBy, words: string): Written => {
    const plan = session.store.get().current?.plan;
    if (plan === undefined) return { now: [], later: NOTHING };
    const own = rules(plan);
    const written = writeCells(plan, own, cells);
    if (written.refusals.length > 0) return { now: written.refusals, later: NOTHING };
    const label = labelOf(kind, by, own.cells.get(cells[0]?.columnId ?? "")?.words ?? "", written);
    const send = async (): Promise<readonly CellRefusal[]> => {
      const reply = await session.edit(label, written.changes);
      if (!reply.ok) return [refusalOf(reply.failure, written.changes, own.columnOf)];
      const notes = [
        ...(by === "typed" ? [] : [`${label}.`]),
        ...(written.added.length === 0
          ? []
          : [`${countWords(kind, written.added.length)} added.`, taken(plan, written.given)]),
        ...(by === "pasted" ? [words] : []),
        ...written.doubles.map((name) => `More than one ${kind} is called “${name}” now. Are they two?`),
      ].filter((note) => note !== "");
      if (notes.length > 0) session.tell(written.doubles.length > 0 ? "warning" : "information", notes.join(" "));
      return [];
    };
    return { now: [], later: send() };
  };
  return {
    write,
    closed: isTrial ? "A what-if is on screen: keep it as a case or end it, then change the plan." : closed,
    canGrow: true,
  };
};

/** `shown`: the flights of the table as they stand; new ones take the context of the last. */
export const useFlightSheet = (shown: readonly Flight[], isTons: boolean): Sheet => {
  const above = shown.at(-1) ?? null;
  return usePlanSheet("flight", {
    rules: (plan) => {
      const cells = flightCells(plan, isTons);
      return {
        kind: "flight",
        cells,
        above,
        fresh: (grown, last, given) => newFlight(grown, last, given, cells),
        columnOf: flightColumnOf,
      };
    },
    taken: (plan, given) => (above === null ? "" : takenForFlights(plan, above, given)),
  });
};

export const useSortieSheet = (shown: readonly Sortie[]): Sheet => {
  const above = shown.at(-1) ?? null;
  return usePlanSheet("sortie", {
    rules: (plan) => {
      const cells = sortieCells(plan);
      return {
        kind: "sortie",
        cells,
        above,
        fresh: (grown, last, given) => newSortie(grown, last, given, cells),
        columnOf: (property) => sortieColumnOf(property),
      };
    },
    taken: (plan, given) => (above === null ? "" : takenForSorties(plan, above, given)),
  });
};
