/** A recorded fact within a run: a level that was measured, mass that was moved, a lander that left or came back. */
import { DAY_MS } from "../../app/ground/quantity.ts";
import { RECORD } from "../../app/forecast/compiled-plan.ts";
import { redirect, settle } from "./metered-flow.ts";
import { advance } from "./pool.ts";
import type { Run } from "./run.ts";

/** The tank's level becomes `massKg`; the books of the run note the difference. */
const setLevel = (run: Run, tank: number, massKg: number, at: number): void => {
  const pool = run.plan.tankPool[tank] as number;
  const runs = pool >= 0 && (run.poolFlowCount[pool] as number) > 0;
  if (runs) settle(run, pool, at);
  else advance(run, tank, at);
  run.recordedKg[tank] = (run.recordedKg[tank] as number) + (massKg - (run.massKg[tank] as number));
  run.massKg[tank] = massKg;
  if (runs) redirect(run, pool, at);
};

/** A recorded metered inflow of the tank begins, changes or ends. */
const setFlow = (run: Run, tank: number, kgPerDay: number, at: number): void => {
  const pool = run.plan.tankPool[tank] as number;
  const runs = pool >= 0 && (run.poolFlowCount[pool] as number) > 0;
  if (runs) settle(run, pool, at);
  else advance(run, tank, at);
  const before = run.recordFlow[tank] as number;
  const days = (at - (run.recordFlowAt[tank] as number)) / DAY_MS;
  run.recordedKg[tank] = (run.recordedKg[tank] as number) + before * days;
  run.recordFlow[tank] = kgPerDay;
  run.recordFlowAt[tank] = at;
  run.f[tank] = (run.f[tank] as number) + kgPerDay - before;
  if (runs) redirect(run, pool, at);
};

/**
 * Waiting sorties look again where a handover begins, a tank got full, or it ends, as they do in a handover that is
 * forecast; not where a draw makes room, nor where a reading cut the flow in two (whole grams make its parts differ a little).
 */
const isWaking = (beforeKgPerDay: number, kgPerDay: number): boolean =>
  beforeKgPerDay === 0 || kgPerDay < 0.98 * beforeKgPerDay;

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
      advance(run, subject, at);
      const level = (run.massKg[subject] as number) + kg;
      setLevel(run, subject, level > 0 ? level : 0, at);
      return kg > 0;
    }
    case RECORD.flow: {
      const before = run.recordFlow[subject] as number;
      setFlow(run, subject, kg, at);
      return isWaking(before, kg);
    }
    case RECORD.leaves:
      run.landerIsAway[subject] = 1;
      return false;
    default:
      run.landerIsAway[subject] = 0;
      return true;
  }
};
