/** What a stage does in a sortie, in a line: for paper and the command line. */
import { formatMass, type MassUnit } from "../format/mass.ts";
import { formatNumber, withUnit } from "../format/number.ts";
import type { StageSheet } from "./stage-sheet.ts";

/** "Descent stage: dry 7.30 t, load 23.2 t, 2 920 m/s, 4 ignitions and 590 s of the engine used most; left on the surface." */
export const stageSentence = (stage: StageSheet, unit: MassUnit = "auto"): string => {
  const { name, dryKg, loadKg, deltaVMPerS, engines, ignitions, burnSeconds, fate } = stage;
  const burns =
    engines.length === 0
      ? "no engine"
      : `${withUnit(formatNumber(deltaVMPerS), "m/s")}, ${formatNumber(ignitions)} ${ignitions === 1 ? "ignition" : "ignitions"} and ${withUnit(formatNumber(burnSeconds), "s")} of the engine used most`;
  return `${name ?? "The lander itself"}: dry ${formatMass(dryKg, unit)}, load ${formatMass(loadKg, unit)}, ${burns}; ${fate}.`;
};
