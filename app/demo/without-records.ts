/** The plan of a ledger as it was before anything happened: opening levels stay, everything recorded after them goes. */
import { DAY_MS } from "../ground/quantity.ts";
import type { LedgerDocument } from "../ledger/ledger-view.ts";

/** The day on which the first thing of the plan happens, ms UTC. */
const firstDayOf = ({ entities }: LedgerDocument): number => {
  const dates = [...entities.flight.map(({ departAt }) => departAt), ...entities.sortie.map(({ loadAt }) => loadAt)];
  return Math.floor(Math.min(...dates) / DAY_MS) * DAY_MS;
};

/**
 * Flights and sorties are planned again, at the dates that they have; levels open before the first of them, so that nothing is overdue. It goes on being a demonstration: its figures are
 * invented. `programme`: the name that the copy gets.
 */
export const withoutRecords = (document: LedgerDocument, programme: string): LedgerDocument => ({
  ...document,
  programme,
  asOfAt: null,
  entities: {
    ...document.entities,
    planCase: document.entities.planCase.map((row) => ({ ...row, note: `${row.note} Copied without records.`.trim() })),
    flight: document.entities.flight.map((row) =>
      row.status === "cancelled" || row.status === "firm" ? row : { ...row, status: "planned" as const, lostAt: null },
    ),
    sortie: document.entities.sortie.map((row) =>
      row.status === "cancelled" ? row : { ...row, status: "planned" as const, stoodDownAt: null },
    ),
  },
  entries: document.entries
    .filter(({ kind }) => kind === "opening")
    .map((entry) => ({ ...entry, at: Math.min(entry.at, firstDayOf(document)) })),
  readings: [],
  reportIssues: [],
});
