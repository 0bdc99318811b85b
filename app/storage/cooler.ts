/** What coolers lift at a temperature, and after what time one pays for its mass. */
import type { Cooler } from "../entity/heat-balance.ts";

/**
 * Lift in W at a cold-end temperature, straight between the lines of its table. Colder than the table reaches: nothing
 * (it may not get there). Warmer: as at the warmest line. Both err to the side of more boil-off.
 */
export const liftAt = (lift: Cooler["lift"], temperatureK: number): number => {
  const upper = lift.findIndex((point) => point.temperatureK >= temperatureK);
  if (upper === -1) return lift.at(-1)?.liftW ?? 0;
  const above = lift[upper];
  const below = lift[upper - 1];
  if (above === undefined) return 0;
  if (above.temperatureK === temperatureK) return above.liftW;
  if (below === undefined) return 0;
  const share = (temperatureK - below.temperatureK) / (above.temperatureK - below.temperatureK);
  return below.liftW + share * (above.liftW - below.liftW);
};

/** The coolers that run, together: lift at the temperature, electric power, and the mass of all. */
export const coolersTogether = (
  coolers: readonly Cooler[],
  temperatureK: number,
): { readonly liftW: number; readonly powerW: number; readonly massKg: number } => {
  const sum = { liftW: 0, powerW: 0, massKg: 0 };
  for (const cooler of coolers) {
    sum.massKg += cooler.massKg;
    if (!cooler.isRunning) continue;
    sum.liftW += liftAt(cooler.lift, temperatureK);
    sum.powerW += cooler.powerW;
  }
  return sum;
};

/**
 * Days after which a cooler has saved its own mass and that of its power supply and radiator; null: never, it saves
 * nothing. `supplyKgPerW`: mass of solar array, converter and radiator per electric watt.
 */
export const coolerPaysAfterDays = (
  cooler: Pick<Cooler, "massKg" | "powerW">,
  supplyKgPerW: number,
  savedKgPerDay: number,
): number | null => (savedKgPerDay > 0 ? (cooler.massKg + cooler.powerW * supplyKgPerW) / savedKgPerDay : null);
