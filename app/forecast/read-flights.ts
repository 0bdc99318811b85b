/** Reads what a traced run says of flights. */
import type { Entity } from "../entity/entities.ts";
import type { FlightForecast, FlightLineForecast, TankAmount, TankFlow } from "./outcome.ts";
import { NOTHING_KG } from "./pool.ts";
import type { Run } from "./run-state.ts";
import type { Trace } from "./trace.ts";

/** Amounts by tank of the rows of one line or need. */
export const amounts = (
  run: Run,
  rows: readonly { readonly tank: number; readonly massKg: number }[] | undefined,
): readonly TankAmount[] => (rows ?? []).map(({ tank, massKg }) => ({ tankId: run.plan.tankIds[tank] ?? "", massKg }));

/** The least that instants of records tell apart, ms. */
const MOMENT_MS = 1;

const placeOf = (tank: number, at: number): string => `${tank} ${at}`;

/**
 * Stretches of one rate that follow each other are one. Where a full tank stopped the flow and a load let it go on at the
 * same instant, it begins anew a moment later, so that its record says where the tank was full: whoever waited looked then.
 */
const courseOf = (run: Run, rows: Trace["course"], full: ReadonlySet<string>): readonly TankFlow[] => {
  const flows: TankFlow[] = [];
  const last = new Map<number, number>();
  for (const { tank, fromAt: begunAt, untilAt, massKg } of rows) {
    const fromAt =
      full.has(placeOf(tank, begunAt)) && untilAt - begunAt > 2 * MOMENT_MS ? begunAt + MOMENT_MS : begunAt;
    const place = last.get(tank);
    const before = place === undefined ? undefined : flows[place];
    const rate = massKg / (untilAt - fromAt);
    if (
      place !== undefined &&
      before !== undefined &&
      before.untilAt === fromAt &&
      Math.abs(before.massKg / (before.untilAt - before.fromAt) - rate) <= 1e-9 * rate
    )
      flows[place] = { ...before, untilAt, massKg: before.massKg + massKg };
    else last.set(tank, flows.push({ tankId: run.plan.tankIds[tank] ?? "", fromAt, untilAt, massKg }) - 1);
  }
  return flows;
};

const at = (column: Float64Array, index: number): number => column[index] ?? 0;

export const readFlights = (
  run: Run,
  trace: Trace,
  flights: ReadonlyMap<string, Entity<"flight">>,
): readonly FlightForecast[] => {
  const { plan } = run;
  const takenBy = Map.groupBy(trace.taken, (row) => row.line);
  const courseBy = Map.groupBy(trace.course, (row) => row.line);
  const full = new Set(trace.full.map(({ tank, at: fullAt }) => placeOf(tank, fullAt)));
  const drawnBy = Map.groupBy(
    trace.drawn.filter((row) => row.by === "line"),
    (row) => row.index,
  );
  const overdue = new Set(plan.overdueIds);

  const readLine = (line: number, vents: boolean): FlightLineForecast => {
    const loaded = at(run.lineLoadedKg, line);
    const offered = at(run.lineOfferedKg, line);
    const arrived = at(run.lineArrivedKg, line);
    const endAt = at(trace.lineEndAt, line);
    const hasArrived = !Number.isNaN(endAt);
    const taken = at(trace.lineTakenKg, line);
    const deliverable = at(run.lineDeliverableKg, line);
    const isMetered = at(plan.lineRateKgPerDay, line) > 0;
    // Nothing is cooled down for a transfer that does not begin.
    const begins = hasArrived && (taken > 0 || deliverable === 0 || isMetered);
    const chill = begins ? Math.min(at(plan.lineChillKg, line), offered) : 0;
    const untaken = (deliverable - taken) / at(plan.lineKeep, line);
    const left = !hasArrived ? 0 : !begins ? offered : untaken > NOTHING_KG ? untaken : 0;
    const originChill = at(trace.lineOriginChillKg, line);
    const originDrawn = at(trace.lineOriginDrawnKg, line);
    const fromDepot = at(plan.lineLoadedKg, line) > 0 && (plan.lineOriginPool[line] ?? -1) >= 0;
    return {
      propellantId: plan.linePropellantIds[line] ?? "",
      loadedKg: loaded,
      drawn: amounts(run, drawnBy.get(line)),
      originChilldownKg: originChill,
      originLossKg: originDrawn > 0 ? originDrawn - originChill - loaded : 0,
      missingKg: fromDepot ? Math.max(0, at(plan.lineLoadedKg, line) - loaded) : 0,
      inFlightLossKg: hasArrived ? loaded - arrived : 0,
      residualKg: hasArrived ? arrived - offered : 0,
      offeredKg: offered,
      chilldownKg: chill,
      handoverLossKg: hasArrived ? Math.max(0, offered - chill - left - taken) : 0,
      taken: amounts(run, takenBy.get(line)),
      course: courseOf(run, courseBy.get(line) ?? [], full),
      keptAboardKg: vents ? 0 : left,
      ventedKg: vents ? left : 0,
      untilAt: hasArrived ? endAt : null,
    };
  };

  return plan.flightIds.map((flightId, index) => {
    const vents = flights.get(flightId)?.overflow === "vent";
    const first = plan.flightLineStart[index] ?? 0;
    const lines: FlightLineForecast[] = [];
    for (let line = first; line < (plan.flightLineStart[index + 1] ?? first); line += 1)
      lines.push(readLine(line, vents));
    const arriveAt = at(plan.flightArriveAt, index);
    return {
      flightId,
      departAt: at(plan.flightDepartAt, index),
      arriveAt,
      arrives: arriveAt <= plan.horizonAt,
      isOverdue: overdue.has(flightId),
      lines,
    };
  });
};
