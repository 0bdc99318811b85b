/** A flight's two moments: it draws at the depot it comes from, and hands over where it goes. */
import { FROM, INDEX, MASS, TO } from "./layout.ts";
import { leave } from "./left-aboard.ts";
import { levelAfter } from "../storage/level.ts";
import { redirectIfRunning, startFlow } from "./metered-flow.ts";
import { NOTHING_KG, draw, drawable, fill } from "./pool.ts";
import type { Run } from "./run-state.ts";

/** What could be taken of what is offered. */
const deliver = (run: Run, line: number): void => {
  const offered = run.lineOfferedKg[line] as number;
  run.lineDeliverableKg[line] =
    Math.max(0, offered - (run.lineChillKg[line] as number)) * (run.lineKeep[line] as number);
};

/** What is offered of a line after its coast: loaded − lost in flight − residual. */
const coast = (run: Run, line: number, loadedKg: number): void => {
  const { plan } = run;
  const arrived = levelAfter(
    loadedKg,
    plan.lineTransitK[line] as number,
    plan.lineTransitC[line] as number,
    plan.lineTransitDays[line] as number,
  );
  const offered = Math.max(0, arrived - (plan.lineResidualKg[line] as number));
  run.lineLoadedKg[line] = loadedKg;
  run.lineArrivedKg[line] = arrived;
  run.lineOfferedKg[line] = offered;
  deliver(run, line);
};

/** A line that has not drawn at its depot has nothing aboard. */
const empty = (run: Run, line: number): void => {
  run.lineLoadedKg[line] = 0;
  run.lineArrivedKg[line] = 0;
  run.lineOfferedKg[line] = 0;
  run.lineDeliverableKg[line] = 0;
};

/** Before each run: lines that draw at a depot have loaded nothing yet. */
export const emptyDrawingLines = (run: Run): void => {
  for (const line of run.drawingLines) empty(run, line);
};

/** Sets what a line is to carry and how it is handed over; what it brings follows. Slips move departure and arrival alike. */
export const setLine = (run: Run, line: number, loadedKg: number, chillKg: number, keep: number): void => {
  const isLoaded = run.lineLoadedKg[line] === loadedKg;
  run.lineWantedKg[line] = loadedKg;
  run.lineChillKg[line] = chillKg;
  run.lineKeep[line] = keep;
  if ((run.plan.lineOriginPool[line] as number) >= 0) return;
  if (isLoaded) deliver(run, line);
  else coast(run, line, loadedKg);
  run.begunDeliverableKg[line] = run.lineDeliverableKg[line] as number;
};

/** A flight draws at its depot: chilldown and transfer loss on top of the load, or less if less is there. */
export const depart = (run: Run, event: number, at: number): void => {
  const { plan, trace } = run;
  const { events } = run.table;
  if (run.input.flightIsOff[events[event + INDEX] as number] === 1) return;
  const end = events[event + TO] as number;
  for (let line = events[event + FROM] as number; line < end; line += 1) {
    const pool = plan.lineOriginPool[line] as number;
    const wanted = run.lineWantedKg[line] as number;
    if (pool < 0 || wanted <= 0) continue;
    const chill = run.lineChillKg[line] as number;
    const keep = run.lineKeep[line] as number;
    const gross = chill + wanted / keep;
    const there = drawable(run, pool, at);
    const isEnough = gross <= there + NOTHING_KG;
    const drawn = isEnough ? Math.min(gross, there) : there > chill ? there : 0;
    if (drawn <= 0) continue;
    draw(run, pool, drawn, "line", line);
    if (trace !== null) {
      trace.lineOriginDrawnKg[line] = drawn;
      trace.lineOriginChillKg[line] = chill;
    }
    coast(run, line, isEnough ? wanted : (drawn - chill) * keep);
    redirectIfRunning(run, pool, at);
  }
};

/** A line brings more than there is room for. Nothing is cooled down where there is no room at all. */
export const fillUp = (run: Run, line: number, row: number, held: number, room: number): void => {
  const part = room > 0 ? room : 0;
  run.tanks[row + MASS] = held + part;
  leave(run, line, (run.lineDeliverableKg[line] as number) - part);
};

/** A flight hands over, at once or metered, into one tank or several; written down where the run is traced. */
export const arrive = (run: Run, event: number, at: number): void => {
  const { linePool, lineRateKgPerDay, flightBerthMs } = run.plan;
  const { events } = run.table;
  const flight = events[event + INDEX] as number;
  const end = events[event + TO] as number;
  for (let line = events[event + FROM] as number; line < end; line += 1) {
    const deliverable = run.lineDeliverableKg[line] as number;
    const pool = linePool[line] as number;
    if (run.trace !== null) run.trace.lineEndAt[line] = at;
    if (deliverable <= 0) continue;
    if ((lineRateKgPerDay[line] as number) > 0) {
      startFlow(run, line, deliverable, at, at + (flightBerthMs[flight] as number));
      continue;
    }
    const taken = fill(run, pool, deliverable, at, line);
    if (taken < deliverable) leave(run, line, deliverable - taken);
    if (run.trace !== null) run.trace.lineTakenKg[line] = taken;
    redirectIfRunning(run, pool, at);
  }
};
