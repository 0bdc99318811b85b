/**
 * What the laws of records are tried with: a random plan as a ledger, all that could be recorded next of what it forecasts,
 * and how two forecasts differ.
 */
import type { Input } from "../../app/contract/contract.ts";
import type { RecordName } from "../../app/records/record-input.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import { levelAt } from "../../app/forecast/curve.ts";
import { type Forecast, forecast } from "../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { emptyEntitySet } from "../../app/entity/apply-changes.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import { DAY, START } from "../app/forecast/small-plan.ts";
import type { Site } from "../app/merge/sites.ts";
import { randomPlan } from "./random-plan.ts";

export const LAW_DAYS = 20;
export const lawPlans = randomPlan({ days: LAW_DAYS, flights: 6, sorties: 4, constantLoss: true, betweenDepots: true });

export const gramsOf = (kg: number): number => Math.round(kg * 1000);

/** The plan as a ledger whose books open at its beginning; nothing has happened yet. */
export const documentOf = (plan: PlanSnapshot): LedgerDocument => ({
  format: "coldstock-ledger",
  version: 1,
  programme: "Law",
  isDemonstration: false,
  asOfAt: null,
  entities: {
    ...emptyEntitySet(),
    propellant: plan.propellants,
    depot: plan.depots,
    source: plan.sources,
    craftClass: plan.craftClasses,
    craft: plan.craft,
    tank: plan.tanks,
    planCase: [plan.planCase],
    lossPeriod: plan.lossPeriods.filter(({ fromAt, untilAt }) => (fromAt ?? 0) < (untilAt ?? Infinity)),
    campaign: plan.campaigns,
    // Each at an instant of its own: which of two loads of one instant came first, no record says.
    flight: plan.flights.map((row, n) => ({
      ...row,
      status: "planned" as const,
      departAt: Math.max(row.departAt, START) + (n + 1) * 420_001,
      arriveAt: Math.max(row.arriveAt, START) + (n + 1) * 420_001,
    })),
    sortie: plan.sorties.map((row, n) => ({
      ...row,
      loadAt: row.loadAt + (n + 1) * 540_007,
      returnAt: row.returnAt + (n + 1) * 540_007,
    })),
  },
  entries: plan.opening.map(({ tankId, massKg }, n) => ({
    id: `open-${n}`,
    at: START,
    kind: "opening" as const,
    subjectKey: null,
    reversesId: null,
    note: "",
    author: "Ada",
    recordedAt: START,
    postings: [
      { account: { kind: "tank" as const, ownerId: tankId }, propellantId: "lox", grams: gramsOf(massKg) },
      { account: { kind: "source" as const, ownerId: "ground" }, propellantId: "lox", grams: -gramsOf(massKg) },
    ],
  })),
  readings: [],
  reportIssues: [],
});

/** A record of something that the forecast says, as it says it, and the kg that whole grams make of it. */
export interface Possible {
  readonly what: string;
  readonly at: number;
  readonly roundedKg: number;
  record(site: Site): void;
}

/** Sums what rounding to grams changes. */
const rounding = () => {
  let off = 0;
  return {
    kg: (kg: number): number => {
      const written = gramsOf(kg) / 1000;
      off += Math.abs(written - kg);
      return written;
    },
    /** Parts must not add up to more than the whole. */
    down: (kg: number): number => {
      const written = Math.floor(kg * 1000 + 1e-6) / 1000;
      off += Math.abs(written - kg);
      return written;
    },
    off: () => off,
  };
};

export const possible = <N extends RecordName>(
  record: N,
  id: string,
  at: number,
  input: (kg: (kg: number) => number, down: (kg: number) => number) => Input<N>,
  roundings = 0,
): Possible => {
  const round = rounding();
  const made = input(round.kg, round.down);
  return {
    what: `${record} ${id}`,
    at,
    roundedKg: round.off() + 0.001 * roundings,
    record: (site) => site.record(record, made),
  };
};

/** Books know whole milliseconds: what flows in one at 4,000 kg/day, the fastest here, in grams. */
const ofInstant = (at: number): number => (Number.isInteger(at) ? 0 : 0.05);

const sum = (amounts: readonly { readonly massKg: number }[]): number =>
  amounts.reduce((kg, { massKg }) => kg + massKg, 0);

/** All that could be recorded next of what is planned, in whatever order. */
export const possibleOf = (plan: PlanSnapshot, seen: Forecast, read: number): readonly Possible[] => {
  const found: Possible[] = [];
  for (const row of plan.flights) {
    const said = seen.flights.find(({ flightId }) => flightId === row.id);
    if (said === undefined) continue;
    if (row.status === "planned" && said.departAt <= plan.horizonAt)
      found.push(
        possible("record.departure", row.id, said.departAt, (kg) => ({
          flightId: row.id,
          at: said.departAt,
          loads: said.lines.map((line) => ({ propellantId: line.propellantId, loadedKg: kg(line.loadedKg) })),
          ...(row.origin.kind === "depot"
            ? {
                drawn: said.lines.flatMap((line) => {
                  // What rounding leaves of the handover must not be less than nothing.
                  const drawn = line.drawn.map(({ tankId, massKg }) => ({ tankId, massKg: kg(massKg) }));
                  const short = gramsOf(line.loadedKg) - drawn.reduce((grams, part) => grams + gramsOf(part.massKg), 0);
                  const first = drawn[0];
                  return short <= 0 || first === undefined
                    ? drawn
                    : [{ ...first, massKg: (gramsOf(first.massKg) + short) / 1000 }, ...drawn.slice(1)];
                }),
              }
            : {}),
          note: "",
        })),
      );
    // One that still runs at the horizon is not forecast to have ended there.
    const hasEnded = said.lines.every(({ untilAt }) => untilAt !== null && untilAt < plan.horizonAt);
    if (row.status === "departed" && said.arrives && hasEnded) {
      const endAt = Math.round(Math.max(said.arriveAt, ...said.lines.map(({ untilAt }) => untilAt ?? 0)));
      const course = said.lines
        .flatMap((line) => line.course)
        .map(({ tankId, fromAt, untilAt, massKg }) => ({
          tankId,
          fromAt: Math.round(fromAt),
          untilAt: Math.round(untilAt),
          massKg,
        }));
      // A metered handover is written stretch by stretch, each in whole grams, cut once more at every reading in its midst.
      const stretches = course.length === 0 ? 0 : course.length + read;
      found.push(
        possible(
          "record.arrival",
          row.id,
          endAt,
          (_kg, down) => {
            const masses = (of: (line: Forecast["flights"][number]["lines"][number]) => number) =>
              said.lines.map((line) => ({ propellantId: line.propellantId, massKg: down(of(line)) }));
            return {
              flightId: row.id,
              at: endAt,
              ...(course.length > 0 ? { sinceAt: Math.round(said.arriveAt), course } : {}),
              taken: said.lines.flatMap((line) =>
                line.taken.map(({ tankId, massKg }) => ({ tankId, massKg: down(massKg) })),
              ),
              handoverLoss: masses((line) => line.chilldownKg + line.handoverLossKg),
              leftAboard: masses((line) => line.residualKg + line.keptAboardKg),
              vented: masses((line) => line.ventedKg),
              note: "",
            };
          },
          stretches,
        ),
      );
    }
  }
  for (const row of plan.sorties) {
    const said = seen.sorties.find(({ sortieId }) => sortieId === row.id);
    if (said === undefined) continue;
    if (row.status === "planned" && said.loadedAt !== null) {
      // What is aboard beyond the need leaves in whole grams, too.
      const at = Math.round(said.loadedAt);
      found.push(
        possible(
          "record.loading",
          row.id,
          at,
          (kg) => ({
            sortieId: row.id,
            at,
            drawn: said.lines.flatMap((line) =>
              line.drawn.map(({ tankId, massKg }) => ({ tankId, massKg: kg(massKg) })),
            ),
            handoverLoss: said.lines.map((line) => ({
              propellantId: line.propellantId,
              massKg: Math.floor(Math.min(line.chilldownKg + line.handoverLossKg, sum(line.drawn)) * 1000) / 1000,
            })),
            note: "",
          }),
          said.lines.filter(({ surplusKg }) => surplusKg > 0).length + ofInstant(said.loadedAt),
        ),
      );
    }
    if (row.status === "planned" && said.outcome === "stands down")
      found.push(
        possible("record.standDown", row.id, said.plannedAt, () => ({
          sortieId: row.id,
          at: said.plannedAt,
          note: "",
        })),
      );
    if (row.status === "departed" && said.returnAt !== null) {
      const at = Math.round(said.returnAt);
      found.push(
        possible(
          "record.return",
          row.id,
          at,
          (kg) => ({
            sortieId: row.id,
            at,
            aboard: said.lines.map((line) => ({ propellantId: line.propellantId, massKg: kg(line.returnedKg) })),
            note: "",
          }),
          ofInstant(said.returnAt),
        ),
      );
    }
  }
  return found;
};

let readings = 0;
/** A gauge that reads what the forecast says, or boil-off booked up to then, at an odd instant. */
export const looked = (plan: PlanSnapshot, seen: Forecast, share: number, pick: number): Possible | null => {
  const at = START + Math.round(share * LAW_DAYS * DAY) + 777;
  const tank = plan.tanks[pick % plan.tanks.length];
  if (tank === undefined || tank.ownerKind !== "depot") return null;
  if (pick % 3 === 0)
    return possible("record.closing", tank.ownerId, at, () => ({ depotId: tank.ownerId, at, measured: [], note: "" }));
  const segments = seen.levels.find(({ tankId }) => tankId === tank.id)?.segments ?? [];
  if (at < (segments[0]?.startAt ?? Infinity)) return null;
  return possible("record.reading", tank.id, at, (kg) => ({
    id: `reading-${(readings += 1)}`,
    tankId: tank.id,
    at,
    massKg: kg(levelAt(segments, at)),
    sigmaKg: 5,
    takeIntoBooks: true,
    note: "",
  }));
};

export const viewOf = (site: Site) => {
  const { plan } = planView(site.store, "case");
  return { plan, seen: forecast(plan) };
};

/** What happens in both forecasts happens at one instant, to within this. */
const MAX_APART_MS = 1000;

/** Instants in the midst of everything: half way between one event and the next, of either forecast. */
const between = (forecasts: readonly Forecast[], fromAt: number): readonly number[] => {
  const edges = new Set<number>([fromAt]);
  for (const { levels } of forecasts)
    for (const { segments } of levels)
      for (const { startAt, endAt } of segments) for (const at of [startAt, endAt]) if (at > fromAt) edges.add(at);
  const sorted = [...edges].toSorted((a, b) => a - b);
  return sorted.slice(1).flatMap((at, n) => {
    const before = sorted[n] ?? at;
    // Whole grams put off the end of a metered flow, and what waits for it, by parts of a second: not judged in between.
    return at - before < MAX_APART_MS ? [] : [(at + before) / 2];
  });
};

/** Levels and statuses of two forecasts after an instant; says what differs by more than so many kg. */
export const difference = (was: Forecast, is: Forecast, fromAt: number, tolerance: number): string | null => {
  const isClose = was.sorties.some((row) =>
    row.lines.some((line) => {
      const freely = line.availableKg - line.requiredKg;
      return Math.abs(line.marginOverReserveKg) <= tolerance + 1e-6 || Math.abs(freely) <= tolerance + 1e-6;
    }),
  );
  if (isClose) return null;
  for (const before of was.sorties) {
    const after = is.sorties.find(({ sortieId }) => sortieId === before.sortieId);
    if (after === undefined || after.isOut || before.isOut) continue;
    if (before.status !== after.status || before.outcome !== after.outcome)
      return `${before.sortieId}: ${before.status}, ${before.outcome} became ${after.status}, ${after.outcome}`;
    if (Math.abs((before.loadedAt ?? 0) - (after.loadedAt ?? 0)) > MAX_APART_MS)
      return `${before.sortieId} loads at another time`;
  }
  for (const at of between([was, is], fromAt))
    for (const { tankId, segments } of was.levels) {
      const other = is.levels.find((level) => level.tankId === tankId);
      const gap = levelAt(segments, at) - levelAt(other?.segments ?? [], at);
      if (Math.abs(gap) > tolerance)
        return `${tankId} on day ${((at - START) / DAY).toFixed(3)}: ${gap.toFixed(9)} kg, allowed ${tolerance.toFixed(9)}`;
    }
  return null;
};

/** Whether it was recorded; not, where something before it is missing in the books. */
export const record = (site: Site, event: Possible): boolean => {
  try {
    event.record(site);
    return true;
  } catch (error) {
    // Something before it is missing in the books: it is asked for first.
    if (error instanceof PlanningError && error.code === "refused") return false;
    throw error;
  }
};
