/** A recorded fact within a run: a level that was measured, mass that was moved, a lander that left or came back. */
import { DAY_MS } from "../ground/quantity.ts";
import { EVENT, RECORD } from "./compiled-plan.ts";
import { bringForward } from "./due.ts";
import {
  CHANGED,
  FLOW,
  FLOW_SINCE,
  INDEX,
  KIND,
  LOAD,
  MASS,
  NEED_WIDTH,
  RECORDED_FLOW,
  RECORD_WIDTH,
  TANK_WIDTH,
} from "./layout.ts";
import { isRunningInto, redirectIfRunning, settle } from "./metered-flow.ts";
import { NEED_TANKS, type Run } from "./run-state.ts";
import { advance, setInflow } from "./tank-step.ts";

/** Carries a tank to the instant, with what flows into its pool. */
const carry = (run: Run, tank: number, at: number): void => {
  const pool = run.plan.tankPool[tank] as number;
  if (isRunningInto(run, pool)) settle(run, pool, at);
  else advance(run, run.tanks, TANK_WIDTH * tank, at);
};

/** What records changed of a tank's level: for the books of the run. */
const book = (run: Run, tank: number, massKg: number): void => {
  const place = RECORD_WIDTH * tank + CHANGED;
  run.records[place] = (run.records[place] as number) + massKg;
};

/** The tank's level becomes `massKg`; the books of the run note the difference. */
const setLevel = (run: Run, tank: number, massKg: number, at: number): void => {
  const { tanks } = run;
  const row = TANK_WIDTH * tank;
  carry(run, tank, at);
  book(run, tank, massKg - (tanks[row + MASS] as number));
  tanks[row + MASS] = massKg;
  redirectIfRunning(run, run.plan.tankPool[tank] as number, at);
};

/** A recorded metered inflow of the tank begins, changes or ends. */
const setFlow = (run: Run, tank: number, kgPerDay: number, at: number): void => {
  const { tanks, records } = run;
  const row = TANK_WIDTH * tank;
  const own = RECORD_WIDTH * tank;
  carry(run, tank, at);
  const before = records[own + RECORDED_FLOW] as number;
  book(run, tank, before * ((at - (records[own + FLOW_SINCE] as number)) / DAY_MS));
  records[own + RECORDED_FLOW] = kgPerDay;
  records[own + FLOW_SINCE] = at;
  setInflow(run, row, (tanks[row + FLOW] as number) + kgPerDay - before);
  redirectIfRunning(run, run.plan.tankPool[tank] as number, at);
};

/**
 * Waiting sorties look again where a handover begins, a tank got full, or it ends, as they do in a handover that is
 * forecast; not where a draw makes room, nor where a reading cut the flow in two (whole grams make its parts differ a little).
 */
const isWaking = (beforeKgPerDay: number, kgPerDay: number): boolean =>
  beforeKgPerDay === 0 || kgPerDay < 0.98 * beforeKgPerDay;

/** What is aboard leaves, and so many kg from the depot; what of it the need does not ask for comes home again. */
const leaveWith = (run: Run, need: number, givenKg: number, at: number): void => {
  const row = run.needTanks[NEED_TANKS * need] as number;
  const over = advance(run, run.tanks, row, at) + givenKg - (run.needs[NEED_WIDTH * need + LOAD] as number);
  run.surplusKg[need] = over > 0 ? over : 0;
  setLevel(run, row / TANK_WIDTH, 0, at);
};

/** Sorties of a lander that a run has out return now, not later. */
const callHome = (run: Run, lander: number, at: number): void => {
  const { events } = run.table;
  bringForward(
    run,
    at,
    (_, event) =>
      events[event + KIND] === EVENT.return && run.plan.sortieLander[events[event + INDEX] as number] === lander,
  );
};

/** Lets a record take effect; whether sorties that wait for a delivery should look again. */
export const takeRecord = (run: Run, record: number, at: number): boolean => {
  const { plan } = run;
  const subject = plan.recordOf[record] as number;
  const kg = plan.recordKg[record] as number;
  switch (plan.recordWhat[record]) {
    case RECORD.level:
      setLevel(run, subject, kg, at);
      return false;
    case RECORD.moved: {
      const level = advance(run, run.tanks, TANK_WIDTH * subject, at) + kg;
      setLevel(run, subject, level > 0 ? level : 0, at);
      return kg > 0;
    }
    case RECORD.flow: {
      const before = run.records[RECORD_WIDTH * subject + RECORDED_FLOW] as number;
      setFlow(run, subject, kg, at);
      return isWaking(before, kg);
    }
    case RECORD.loaded:
      leaveWith(run, subject, kg, at);
      return false;
    case RECORD.leaves:
      run.landerIsAway[subject] = 1;
      return false;
    case RECORD.home:
      callHome(run, subject, at);
      return false;
    default:
      run.landerIsAway[subject] = 0;
      return true;
  }
};
