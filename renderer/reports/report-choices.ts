/** What the next report is to hold, kept for each ledger between starts; and which report is shown. */
import { useSyncExternalStore } from "react";
import type { AskedChoices, ReportSubject } from "../../app/ledger/report-request.ts";
import { type CsvForm, strictCsv } from "../../app/format/csv-form.ts";
import { allSectionIds } from "../../app/report/sections.ts";
import { csvFormOf } from "../widgets/csv-fields.tsx";
import { createStore } from "../state/store.ts";
import type { AppState } from "../state/app-state.ts";

/** All but the plan cases, which are those of the whole window. */
export type OwnChoices = Omit<AskedChoices, "planCaseId" | "compareId" | "sectionIds"> & {
  /** Sections that are left out: one that a later version brings is then in. */
  readonly leftOut: readonly string[];
  /** Sections in the order in which they are to stand; empty: the usual. */
  readonly order: readonly string[];
  /** How a table is saved as CSV. */
  readonly csv: CsvForm;
};

/** All sections in the chosen order; one that a later version brings stands last. */
export const orderedSections = (order: readonly string[]): readonly string[] => [
  ...order.filter((id, index) => allSectionIds.includes(id) && order.indexOf(id) === index),
  ...allSectionIds.filter((id) => !order.includes(id)),
];

/** The order with one section a place further up (−1) or down (1); as it is at either end. */
export const withMoved = (order: readonly string[], id: string, by: -1 | 1): readonly string[] => {
  const next = [...orderedSections(order)];
  const index = next.indexOf(id);
  const other = next[index + by];
  if (index < 0 || other === undefined) return next;
  [next[index], next[index + by]] = [other, id];
  return next;
};

export interface Shown {
  /** The ledger whose choices these are; null: none yet. */
  readonly path: string | null;
  readonly choices: OwnChoices;
  /** The kept issue that is shown; null: the plan as it is now. */
  readonly issueNumber: number | null;
  /** The kept issue that it is set beside; null: it lies there alone. */
  readonly againstNumber: number | null;
  /** To be printed as soon as it is shown. */
  readonly isToPrint: boolean;
}

export const usualChoices: OwnChoices = {
  fromAt: null,
  untilAt: null,
  massUnit: "t",
  paper: "A4",
  leftOut: [],
  order: [],
  csv: strictCsv,
  departureWindows: false,
  leaveBy: false,
};

export const shown = createStore<Shown>({
  path: null,
  choices: usualChoices,
  issueNumber: null,
  againstNumber: null,
  isToPrint: false,
});

export const useShown = (): Shown => useSyncExternalStore(shown.subscribe, shown.get);

const keyOf = (path: string): string => `coldstock.report ${path}`;

/** What was stored, if it is still what choices look like. */
const remembered = (path: string): OwnChoices => {
  try {
    const stored = JSON.parse(localStorage.getItem(keyOf(path)) ?? "{}") as Partial<OwnChoices>;
    const instantOr = (value: unknown): number | null => (Number.isInteger(value) ? (value as number) : null);
    return {
      fromAt: instantOr(stored.fromAt),
      untilAt: instantOr(stored.untilAt),
      massUnit: stored.massUnit === "kg" ? "kg" : "t",
      paper: stored.paper === "letter" ? "letter" : "A4",
      departureWindows: stored.departureWindows === true,
      leaveBy: stored.leaveBy === true,
      order: Array.isArray(stored.order) ? stored.order.filter((id) => allSectionIds.includes(id)) : [],
      csv: csvFormOf(stored.csv),
      leftOut: Array.isArray(stored.leftOut) ? allSectionIds.filter((id) => stored.leftOut?.includes(id)) : [],
    };
  } catch {
    return usualChoices;
  }
};

/** Puts the ledger's own choices in force when another ledger was opened. */
export const openChoices = (path: string): void => {
  if (shown.get().path === path) return;
  shown.set({ path, choices: remembered(path), issueNumber: null, againstNumber: null });
};

/** Shows a kept issue; null: the plan as it is now. */
export const showIssue = (issueNumber: number | null): void => shown.set({ issueNumber, againstNumber: null });

const kept = (patch: Partial<OwnChoices>): OwnChoices => {
  const { path, choices } = shown.get();
  const next = { ...choices, ...patch };
  if (path !== null) localStorage.setItem(keyOf(path), JSON.stringify(next));
  return next;
};

export const choose = (patch: Partial<OwnChoices>): void =>
  shown.set({ choices: kept(patch), issueNumber: null, againstNumber: null });

/** Of a file and not of the report: what is shown stays. */
export const chooseCsv = (csv: CsvForm): void => shown.set({ choices: kept({ csv }) });

/** What is asked of the service for a report of the plan as it is now; null: no plan case is shown. */
export const askedChoices = (
  { choices: { leftOut, order, csv: _csv, ...own } }: Pick<Shown, "choices">,
  { planCaseId, compareCaseId }: Pick<AppState, "planCaseId" | "compareCaseId">,
): AskedChoices | null => {
  if (planCaseId === null) return null;
  const sections = orderedSections(order).filter((id) => !leftOut.includes(id));
  const isUsual =
    sections.length === allSectionIds.length && sections.every((id, index) => id === allSectionIds[index]);
  return { ...own, planCaseId, compareId: compareCaseId, sectionIds: isUsual ? null : sections };
};

/** The report that is shown. */
export const subjectShown = (
  now: Pick<Shown, "choices" | "issueNumber" | "againstNumber">,
  app: Pick<AppState, "planCaseId" | "compareCaseId">,
): ReportSubject | null => {
  if (now.issueNumber !== null)
    return now.againstNumber === null
      ? { kind: "issue", number: now.issueNumber }
      : { kind: "beside", number: now.issueNumber, against: now.againstNumber };
  const choices = askedChoices(now, app);
  return choices === null ? null : { kind: "draft", choices };
};
