/** A flight's two moments: it draws at the depot it comes from, and hands over where it goes. */
import { levelAfter } from "./level.ts";
import { redirect, startFlow } from "./metered-flow.ts";
import { NOTHING_KG, draw, drawable, fill } from "./pool.ts";
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
  run.lineOfferedKg[line] = Math.max(0, arrived - (plan.lineResidualKg[line] as number));
};

/** Loads for lines that do not draw at a depot, as planned. Independent of the run's slips: done when it begins. */
export const loadFromSources = (run: Run): void => {
  const { lineOriginPool, lineLoadedKg } = run.plan;
  for (let line = 0; line < lineOriginPool.length; line += 1) {
    run.lineLoadedKg[line] = (lineOriginPool[line] as number) < 0 ? (lineLoadedKg[line] as number) : 0;
    coast(run, line);
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
  const { plan } = run;
  for (
    let line = plan.flightLineStart[flight] as number;
    line < (plan.flightLineStart[flight + 1] as number);
    line += 1
  ) {
    const offered = run.lineOfferedKg[line] as number;
    const chilldown = plan.lineChillKg[line] as number;
    const chill = chilldown < offered ? chilldown : offered;
    const pool = plan.linePool[line] as number;
    run.lineEndAt[line] = at;
    if (offered <= 0) continue;
    if ((plan.lineRateKgPerDay[line] as number) > 0 && plan.poolStart[pool] !== plan.poolStart[pool + 1]) {
      run.lineChillKg[line] = chill;
      startFlow(run, line, offered - chill, at, at + (plan.flightBerthMs[flight] as number));
      continue;
    }
    const keep = plan.lineKeep[line] as number;
    const deliverable = (offered - chill) * keep;
    const taken = fill(run, pool, deliverable, at, line);
    run.lineTakenKg[line] = taken;
    run.lineChillKg[line] = taken > 0 || deliverable === 0 ? chill : 0;
    run.lineLeftKg[line] = taken === deliverable ? 0 : taken > 0 ? offered - chill - taken / keep : offered;
    if ((run.poolFlowCount[pool] as number) > 0) redirect(run, pool, at);
  }
};
