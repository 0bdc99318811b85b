/** Which flights and sorties a record can speak of, and which of them is meant when none was selected. */
import type { RecordName } from "../../app/records/record-input.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Flight } from "../../app/entity/flight.ts";
import type { Sortie } from "../../app/entity/sortie.ts";

const flightStatuses: Partial<Record<RecordName, readonly Flight["status"][]>> = {
  "record.departure": ["planned", "firm"],
  // One without a record of its departure can have both recorded in one step.
  "record.arrival": ["departed", "planned", "firm"],
  "record.loss": ["planned", "firm", "departed"],
};

const sortieStatuses: Partial<Record<RecordName, readonly Sortie["status"][]>> = {
  "record.loading": ["planned"],
  "record.return": ["departed", "planned"],
  "record.standDown": ["planned"],
};

/** What is under way stands before what has no record yet: it is what is meant, as a rule. */
const isWaiting = ({ status }: { readonly status: string }): number => Number(status !== "departed");

/** In order of time: what is due first stands first. */
export const flightsFor = (plan: PlanSnapshot, record: RecordName): readonly Flight[] =>
  plan.flights
    .filter(({ status }) => flightStatuses[record]?.includes(status) ?? false)
    .toSorted((a, b) => (record === "record.arrival" ? isWaiting(a) - isWaiting(b) : 0) || a.departAt - b.departAt);

export const sortiesFor = (plan: PlanSnapshot, record: RecordName): readonly Sortie[] =>
  plan.sorties
    .filter(({ status }) => sortieStatuses[record]?.includes(status) ?? false)
    .toSorted((a, b) => (record === "record.return" ? isWaiting(a) - isWaiting(b) : 0) || a.loadAt - b.loadAt);

/** The one selected if it is among them, else the first. */
export const subjectAmong = <R extends { readonly id: string }>(rows: readonly R[], id: string | null): R | undefined =>
  rows.find((row) => row.id === id) ?? rows[0];
