/** A flight's two moments: it draws at the depot it comes from, and hands over where it goes. */
import { levelAfter } from "../../app/storage/level.ts";
import { redirect, startFlow } from "./metered-flow.ts";
import { NOTHING_KG, draw, drawable, fill, fillTank } from "./pool.ts";
import type { Run } from "./run.ts";

/** What is offered of a line after its coast: loaded − lost in flight − residual. */
const coast = (run: Run, line: number): void => {
  const { plan } = run;
  const arrived = levelAfter(
    run.lineLoadedKg[line] as number,
    plan.lineTransitK[line] as number,
    plan.lineTransitC[line] as number,
    plan.lineTransitDays[line] as number,
  );
  run.lineArrivedKg[line] = arrived;
  const offered = Math.max(0, arrived - (plan.lineResidualKg[line] as number));
  run.lineOfferedKg[line] = offered;
  run.lineDeliverableKg[line] =
    Math.max(0, offered - (plan.lineChillKg[line] as number)) * (plan.lineKeep[line] as number);
};

/** Once for all runs: what lines bring that do not draw at a depot. Slips move departure and arrival alike. */
export const loadFromSources = (run: Run): void => {
  run.lineLoadedKg.set(run.plan.lineLoadedKg);
  for (let line = 0; line < run.lineLoadedKg.length; line += 1) coast(run, line);
};

/** Before each run: lines that draw at a depot have loaded nothing yet. */
export const emptyDrawingLines = (run: Run): void => {
  for (const line of run.drawingLines) {
    run.lineLoadedKg[line] = 0;
    run.lineArrivedKg[line] = 0;
    run.lineOfferedKg[line] = 0;
    run.lineDeliverableKg[line] = 0;
  }
};

/** A flight draws at its depot: chilldown and transfer loss on top of the load, or less if less is there. */
export const depart = (run: Run, flight: number, at: number): void => {
  const { plan } = run;
  for (
    let line = plan.flightLineStart[flight] as number;
    line < (plan.flightLineStart[flight + 1] as number);
    line += 1
  ) {
    const pool = plan.lineOriginPool[line] as number;
    const wanted = plan.lineLoadedKg[line] as number;
    if (pool < 0 || wanted <= 0) continue;
    const chill = plan.lineChillKg[line] as number;
    const keep = plan.lineKeep[line] as number;
    const gross = chill + wanted / keep;
    const there = drawable(run, pool, at);
    const isEnough = gross <= there + NOTHING_KG;
    const drawn = isEnough ? Math.min(gross, there) : there > chill ? there : 0;
    if (drawn <= 0) continue;
    draw(run, pool, drawn, "line", line);
    run.lineOriginDrawnKg[line] = drawn;
    run.lineOriginChillKg[line] = chill;
    run.lineLoadedKg[line] = isEnough ? wanted : (drawn - chill) * keep;
    coast(run, line);
    if ((run.poolFlowCount[pool] as number) > 0) redirect(run, pool, at);
  }
};

/** A flight hands over, at once or metered. Nothing is cooled down where there is no room at all. */
export const arrive = (run: Run, flight: number, at: number): void => {
  const { flightLineStart, lineTank, linePool, lineRateKgPerDay, flightBerthMs } = run.plan;
  const end = flightLineStart[flight + 1] as number;
  for (let line = flightLineStart[flight] as number; line < end; line += 1) {
    run.lineEndAt[line] = at;
    const deliverable = run.lineDeliverableKg[line] as number;
    if (deliverable <= 0) continue;
    const tank = lineTank[line] as number;
    if ((lineRateKgPerDay[line] as number) > 0) {
      startFlow(run, line, deliverable, at, at + (flightBerthMs[flight] as number));
      continue;
    }
    if (tank >= 0) run.lineTakenKg[line] = fillTank(run, tank, deliverable, at, line);
    else run.lineTakenKg[line] = fill(run, linePool[line] as number, deliverable, at, line);
    if (run.flowCount > 0 && (run.poolFlowCount[linePool[line] as number] as number) > 0)
      redirect(run, linePool[line] as number, at);
  }
};
