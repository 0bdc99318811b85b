/**
 * What else may happen to a ledger between the records of what was forecast: a flight that is lost, entries by hand, readings
 * imported as CSV and booked, another site's records merged in. Each says what the forecast must then be, where that is known.
 */
import { strictCsv } from "../../app/format/csv-form.ts";
import { noForms } from "../../app/exchange/calendar/calendar-forms.ts";
import { rowsTable, rowsToCsv } from "../../app/exchange/rows/write-rows.ts";
import { noMapping } from "../../app/ledger/column-mapping.ts";
import type { Forecast } from "../../app/forecast/forecast.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import { levelAt } from "../../app/forecast/curve.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { bookReadings } from "../../app/records/book-readings.ts";
import { takeSource } from "../../main/exchange/take-source.ts";
import { DAY, START } from "../app/forecast/small-plan.ts";
import { type Site, siteWith, lookAt, merge } from "../app/merge/sites.ts";
import { LAW_DAYS, gramsOf, looked, possibleOf, record, viewOf } from "./law-events.ts";

/** What a deed has done. `expected`: what the forecast must be from an instant on, to a tolerance; null: another one. */
export interface Done {
  readonly what: string;
  readonly expected: Forecast | null;
  readonly fromAt: number;
  readonly toleranceKg: number;
}

/** null: it could not be done. */
type Deed = (
  site: Site,
  plan: PlanSnapshot,
  seen: Forecast,
  pick: number,
  share: number,
) => Promise<Done | null> | Done | null;

/** The next of all that is forecast, or a look at a gauge. */
const asForecast: Deed = (site, plan, seen, pick, share) => {
  const events = possibleOf(plan, seen, site.store.readings().length);
  const event = pick % 5 === 0 || events.length === 0 ? looked(plan, seen, share, pick) : events[pick % events.length];
  if (event === null || event === undefined || !record(site, event)) return null;
  return { what: event.what, expected: seen, fromAt: event.at, toleranceKg: event.roundedKg };
};

const tried = (act: () => void): boolean => {
  try {
    act();
    return true;
  } catch (error) {
    if (error instanceof PlanningError) return false;
    throw error;
  }
};

/** A flight is lost, before it left or on its way: all goes on as if it were not there; what it drew is gone. */
const lost: Deed = (site, plan, _seen, pick, share) => {
  const ahead = plan.flights.filter(({ status }) => status === "planned" || status === "departed");
  const flight = ahead[pick % Math.max(1, ahead.length)];
  if (flight === undefined) return null;
  const at = Math.round(flight.departAt + share * (flight.arriveAt - flight.departAt));
  if (!tried(() => site.record("record.loss", { flightId: flight.id, at, note: "" }))) return null;
  const without = { ...plan, flights: plan.flights.filter(({ id }) => id !== flight.id) };
  return { what: `loss of ${flight.id}`, expected: forecast(without), fromAt: at, toleranceKg: 0 };
};

let entries = 0;
/** Vented, or moved to another tank of the depot, by hand. */
const writeByHand = (site: Site, plan: PlanSnapshot, seen: Forecast, pick: number, share: number) => {
  const tanks = plan.tanks.filter(({ ownerKind }) => ownerKind === "depot");
  const tank = tanks[pick % tanks.length];
  const at = START + Math.round(share * LAW_DAYS * DAY) + 333;
  if (tank === undefined) return null;
  const level = levelAt(seen.levels.find(({ tankId }) => tankId === tank.id)?.segments ?? [], at);
  const other = tanks.find(({ id, ownerId }) => id !== tank.id && ownerId === tank.ownerId);
  const grams = gramsOf(level * 0.1);
  if (!(grams > 0)) return null;
  const isMoved = other !== undefined && pick % 2 === 0;
  const id = `by-hand-${(entries += 1)}`;
  const isWritten = tried(() =>
    site.entry({
      id,
      at,
      kind: isMoved ? "transfer" : "vent",
      subjectKey: null,
      note: "",
      postings: [
        { account: { kind: "tank", ownerId: tank.id }, propellantId: "lox", grams: -grams },
        {
          account: isMoved ? { kind: "tank", ownerId: other.id } : { kind: "vented", ownerId: tank.ownerId },
          propellantId: "lox",
          grams,
        },
      ],
    }),
  );
  return isWritten ? { id, at } : null;
};

const byHand: Deed = (site, plan, seen, pick, share) => {
  const written = writeByHand(site, plan, seen, pick, share);
  return written && { what: "entry by hand", expected: null, fromAt: written.at, toleranceKg: 0 };
};

/** An entry by hand that is taken back is as if it had never been. Loadings written anew on its account are rounded anew. */
const byHandAndBack: Deed = (site, plan, seen, pick, share) => {
  const written = writeByHand(site, plan, seen, pick, share);
  if (written === null) return null;
  if (!tried(() => site.takeBack(written.id)))
    return { what: "entry by hand", expected: null, fromAt: 0, toleranceKg: 0 };
  return { what: "entry by hand, taken back", expected: seen, fromAt: written.at, toleranceKg: 0.01 };
};

/** Gauges that read what is forecast, brought in as a CSV file and booked. */
const imported: Deed = async (site, plan, seen, pick, share) => {
  const tanks = plan.tanks.filter(({ ownerKind }) => ownerKind === "depot").slice(0, 1 + (pick % 2));
  const at = START + Math.round(share * LAW_DAYS * DAY) + 555;
  const rows = tanks.map((tank, n) => {
    const segments = seen.levels.find(({ tankId }) => tankId === tank.id)?.segments ?? [];
    const kg = at + n < (segments[0]?.startAt ?? Infinity) ? Number.NaN : levelAt(segments, at + n);
    return { kg, row: { id: "new", tankId: tank.id, at: at + n, massKg: gramsOf(kg) / 1000, sigmaKg: 5 } };
  });
  if (rows.some(({ kg }) => Number.isNaN(kg))) return null;
  const { store } = site;
  const entities = store.entitiesOfCase("case");
  const csv = rowsToCsv(
    rowsTable(
      "readings",
      entities,
      rows.map(({ row }) => ({ ...row, note: "", entryId: null, isWithdrawn: false })),
    ),
    strictCsv,
  );
  const { readings, preview } = await takeSource(
    {
      source: { fileName: "gauges.csv", base64: Buffer.from(csv).toString("base64") },
      kind: "readings",
      sheet: null,
      mapping: noMapping,
      calendar: noForms,
      remembered: [],
      target: {
        entities,
        planCaseId: "case",
        ledgerId: store.identity(),
        known: store.readings(),
        openings: store.openings(),
      },
    },
    () => undefined,
  );
  if (preview.faultCount > 0 || preview.questions.length > 0 || readings.length === 0) return null;
  if (!tried(() => store.commit(bookReadings(store, readings, "Import", site.recorder)))) return null;
  const offKg = rows.reduce((sum, { kg, row }) => sum + Math.abs(row.massKg - kg), 0);
  return { what: "readings imported", expected: seen, fromAt: at + rows.length, toleranceKg: offKg };
};

/** Both sites record some of what is forecast, each on its own; then the other's records are merged in. */
const merged: Deed = (site, plan, seen, pick, share) => {
  const there = siteWith("There", site.store.document());
  const what: string[] = [];
  let toleranceKg = 0;
  let fromAt = 0;
  try {
    for (const [n, own] of [there, site, there].entries()) {
      const now = viewOf(own);
      const done = asForecast(own, now.plan, now.seen, pick + 7 * n + 1, (share + 0.31 * n) % 0.95) as Done | null;
      if (done === null) continue;
      what.push(`${own === site ? "here" : "there"} ${done.what}`);
      toleranceKg += done.toleranceKg;
      fromAt = Math.max(fromAt, done.fromAt);
    }
    const isMerged =
      lookAt(site, there, "take theirs").view.outcome.blocked.length === 0 &&
      tried(() => merge(site, there, "take theirs"));
    if (!isMerged && what.every((words) => words.startsWith("there"))) return null;
    return {
      what: `merge of ${what.join(" and ")}`,
      expected: seen,
      fromAt: Math.max(fromAt, plan.asOfAt),
      toleranceKg,
    };
  } finally {
    there.store.close();
  }
};

export const deeds: readonly Deed[] = [
  asForecast,
  asForecast,
  asForecast,
  lost,
  byHand,
  byHandAndBack,
  imported,
  merged,
];
