/** An edge as a sentence. */
import type { EdgeAnswer } from "./edge.ts";

const figure = (value: number, tolerance: number): string => {
  const digits = Math.min(12, Math.max(0, Math.ceil(-Math.log10(tolerance))));
  return value.toFixed(digits).replace("-", "−");
};

/** "Sortie 5 is supplied up to 0.2104 %/day of loss rate of Tarn hydrogen; today 0.127, 0.083 below." */
export const edgeText = (edge: EdgeAnswer): string => {
  const { words, unit, sortieName, crossings, least, most, today, tolerance, scanned, isSuppliedAtLeast } = edge;
  const say = (value: number): string => `${figure(value, tolerance)}${unit === "" ? "" : ` ${unit}`}`;
  const between = `between ${say(least)} and ${say(most)} of ${words}`;
  const looked = `looked at ${scanned} values: an exception narrower than ${figure((most - least) / (scanned - 1), tolerance)} may be missed`;
  const [first] = crossings;
  if (first === undefined)
    return isSuppliedAtLeast
      ? `${sortieName} is supplied everywhere ${between} (${looked}).`
      : `${sortieName} is supplied nowhere ${between} (${looked}).`;
  if (!edge.isMonotone)
    return `${sortieName} has no one edge ${between}: it turns at ${crossings
      .map((one) => `${say(one.below)} to ${one.turns}`)
      .join(", at ")} (${looked}).`;
  // The side on which it is supplied for certain.
  const at = first.turns === "not supplied" ? first.below : first.above;
  const away =
    today === null ? "" : `; today ${say(today)}, ${say(Math.abs(at - today))} ${today <= at ? "below" : "above"} it`;
  return `${sortieName} is supplied ${first.turns === "not supplied" ? "up to" : "from"} ${say(at)} of ${words}${first.turns === "not supplied" ? "" : " on"}${away}.`;
};
