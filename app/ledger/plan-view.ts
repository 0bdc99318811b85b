/** Composes what the views are shown from the ledger's rows: the open ledger, and one plan case with its past. */
import type { LedgerInfo, PlanView } from "./ledger-view.ts";
import { PlanningError } from "../ground/failure.ts";
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { LevelHistory } from "../storage/segment.ts";
import type { EntitySet } from "../entity/entities.ts";
import { farReadings } from "./far-readings.ts";
import { leftWithOf } from "./left-with.ts";
import { lookBackOf } from "./look-back.ts";
import { recordedPast } from "./past.ts";
import { replayOf } from "./replay.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { LedgerBooks, LedgerHeader } from "./books.ts";

/** Where an empty ledger begins: there is no record and no plan to begin from. */
const BEGINNING_AT = Date.UTC(2030, 0, 1);

/** The day on which the earliest thing of any plan happens; without one, the start of an empty ledger. */
const planStartAt = (entities: EntitySet): number => {
  let earliest = Infinity;
  for (const { departAt } of entities.flight) earliest = Math.min(earliest, departAt);
  for (const { loadAt } of entities.sortie) earliest = Math.min(earliest, loadAt);
  if (earliest === Infinity) return Math.min(BEGINNING_AT, ...entities.planCase.map((row) => row.horizonAt));
  return Math.floor(earliest / DAY_MS) * DAY_MS;
};

/** From where the forecast starts: as set, else the last record, else the day of the earliest plan item. */
export const effectiveAsOfAt = (header: LedgerHeader, entities: EntitySet): number =>
  header.asOfAt ?? header.lastRecordAt ?? planStartAt(entities);

const fileNameOf = (path: string): string => path.split(/[/\\]/).at(-1) ?? path;

/** The open ledger in one answer. */
export const ledgerInfo = (store: LedgerBooks): LedgerInfo => {
  const header = store.header();
  const entities = store.entities();
  const { programme, path, isDemonstration, readOnlyBecause, schemaVersion, revision, undoLabel, redoLabel } = header;
  return {
    programme,
    fileName: fileNameOf(path),
    path,
    isDemonstration,
    readOnlyBecause,
    schemaVersion,
    revision,
    asOfAt: effectiveAsOfAt(header, entities),
    isAsOfPinned: header.asOfAt !== null,
    undoLabel,
    redoLabel,
    planCases: entities.planCase.toSorted((a, b) => a.position - b.position || (a.id < b.id ? -1 : 1)),
  };
};

/** The recorded past, and after it up to the as-of instant what is assumed with the records since. */
const withReplayed = (
  past: readonly LevelHistory[],
  levels: readonly LevelHistory[],
  asOfAt: number,
): readonly LevelHistory[] => {
  const known = new Map(past.map((history) => [history.tankId, history.segments]));
  return levels.map(({ tankId, segments }) => ({
    tankId,
    segments: [
      ...(known.get(tankId) ?? []),
      ...segments.flatMap((segment) =>
        segment.startAt < asOfAt ? [{ ...segment, endAt: Math.min(segment.endAt, asOfAt) }] : [],
      ),
    ],
  }));
};

/**
 * One plan case: the plan, the recorded past of its tanks, the readings. `pinnedAt`: as of this instant; left out: as of
 * the ledger's own. Records after a pinned instant are left out. Throws "not found".
 */
export const planView = (store: LedgerBooks, planCaseId: string, pinnedAt?: number): PlanView => {
  const entities = store.entitiesOfCase(planCaseId);
  const planCase = entities.planCase.find((row) => row.id === planCaseId);
  if (planCase === undefined)
    throw new PlanningError("not found", `There is no plan case ${planCaseId}.`, "planCaseId");
  const stored = store.header();
  const header = pinnedAt === undefined ? stored : { ...stored, asOfAt: pinnedAt };
  const asOfAt = effectiveAsOfAt(header, store.entities());
  // What follows the records has none after it.
  const { lookBack, flights, sorties, books } =
    header.asOfAt === null
      ? { lookBack: null, flights: entities.flight, sorties: entities.sortie, books: store }
      : lookBackOf(entities, store, asOfAt);
  const replay = replayOf({ flights, sorties, tanks: entities.tank }, books, asOfAt);
  // What stands at the very beginning is replayed, in its order among what is planned for then.
  const past =
    replay === null
      ? recordedPast(entities, books, asOfAt)
      : recordedPast(entities, books, replay.fromAt, replay.fromAt - 1);
  const recordAt = lookBack === null ? stored.lastRecordAt : asOfAt;
  const backdated = entities.lossPeriod.filter(
    ({ planCaseId: own, fromAt }) => own !== null && recordAt !== null && (fromAt ?? -Infinity) < recordAt,
  );
  const readings = lookBack === null ? store.readings() : store.readings().filter(({ at }) => at <= asOfAt);
  const leftWith = leftWithOf(sorties, entities.tank, store);
  const plan: PlanSnapshot = {
    planCase,
    asOfAt,
    horizonAt: Math.max(asOfAt, planCase.horizonAt),
    propellants: entities.propellant.toSorted((a, b) => a.position - b.position || (a.id < b.id ? -1 : 1)),
    depots: entities.depot,
    sources: entities.source,
    craftClasses: entities.craftClass,
    profiles: entities.profile,
    craft: entities.craft,
    tanks: entities.tank,
    lossPeriods: entities.lossPeriod,
    campaigns: entities.campaign,
    flights,
    sorties,
    riskInputs: entities.riskInput,
    opening: past.opening,
    farReadings: [],
    ...(replay === null ? {} : { replay }),
    ...(leftWith.length === 0 ? {} : { leftWith }),
    ...(lookBack === null ? {} : { lookBack }),
    ...(backdated.length === 0
      ? {}
      : { backdatedLosses: backdated.map(({ id: periodId }) => ({ periodId, recordAt: recordAt ?? asOfAt })) }),
  };
  // What is assumed without a record counts as what a reading is compared with.
  const histories = replay === null ? past.histories : withReplayed(past.histories, forecast(plan).levels, asOfAt);
  return {
    revision: header.revision,
    plan: { ...plan, farReadings: farReadings(histories, readings) },
    past: histories,
    readings,
  };
};
