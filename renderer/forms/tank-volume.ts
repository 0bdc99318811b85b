/** What a tank's volume holds under its ullage. */
import type { Tank } from "../../app/entity/tank.ts";

/** kg; null: no volume is stated. */
export const holdsKg = (
  { volumeM3, ullagePercent }: Pick<Tank, "volumeM3" | "ullagePercent">,
  densityKgPerM3: number,
): number | null => (volumeM3 === null ? null : volumeM3 * (1 - ullagePercent / 100) * densityKgPerM3);

/** The same in whole kg, which is what a maximum fill may be; null: no volume is stated. */
export const filledFromVolume = (
  tank: Pick<Tank, "volumeM3" | "ullagePercent">,
  densityKgPerM3: number,
): number | null => {
  const kg = holdsKg(tank, densityKgPerM3);
  return kg === null ? null : Math.floor(kg);
};
