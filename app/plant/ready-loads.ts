/** When a plant has made enough for the next flight: a plant as a source of flights, over its duty periods. */
import { PlanningError } from "../ground/failure.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { WaterPlant } from "../entity/water-plant.ts";
import type { PlantOutput } from "./water-plant.ts";

export type DutyPeriod = WaterPlant["duty"][number];

const checkDuty = (duty: readonly DutyPeriod[]): void => {
  for (const [index, period] of duty.entries()) {
    const before = duty[index - 1];
    if (!(period.untilAt > period.fromAt)) {
      throw new PlanningError("invalid input", "A duty period ends before it begins.", `duty.${index}.untilAt`);
    }
    if (before !== undefined && period.fromAt < before.untilAt) {
      throw new PlanningError("invalid input", "Duty periods overlap or are out of order.", `duty.${index}.fromAt`);
    }
  }
};

/** Days of duty up to an instant. */
export const dutyDays = (duty: readonly DutyPeriod[], untilAt: number): number =>
  duty.reduce((days, period) => days + Math.max(0, Math.min(period.untilAt, untilAt) - period.fromAt) / DAY_MS, 0);

/**
 * Instants at which a full load of pairs is ready, from the first duty on, nothing kept back. The load is taken at once;
 * what the plant makes goes into a store that is empty at the start and loses nothing. Throws "invalid input" for a load
 * that is not above 0 or duty periods that overlap.
 */
export const loadReadyInstants = (
  output: Pick<PlantOutput, "propellantKg">,
  duty: readonly DutyPeriod[],
  loadKg: number,
): readonly number[] => {
  checkDuty(duty);
  if (!(loadKg > 0)) throw new PlanningError("invalid input", "A flight's load must be above 0 kg.", "loadKg");
  const instants: number[] = [];
  if (!(output.propellantKg > 0)) return instants;
  const daysPerLoad = loadKg / output.propellantKg;
  let daysBefore = 0;
  for (const period of duty) {
    const daysHere = (period.untilAt - period.fromAt) / DAY_MS;
    // A load that is ready in the very last moment of a period belongs to it, whatever the last digit says.
    for (;;) {
      const due = (instants.length + 1) * daysPerLoad - daysBefore;
      if (due > daysHere * (1 + 1e-12)) break;
      instants.push(Math.min(period.untilAt, Math.ceil(period.fromAt + due * DAY_MS)));
    }
    daysBefore += daysHere;
  }
  return instants;
};
