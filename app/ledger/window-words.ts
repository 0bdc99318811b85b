/** Where a depot's departure windows come from, in one sentence for screen, paper and command line. */
import { formatInstant } from "../format/instant.ts";
import { formatNumber } from "../format/number.ts";
import { counted } from "../words/counted.ts";
import type { Depot } from "../entity/depot.ts";
import { windowsOf } from "../entity/windows.ts";

/** "a window every 6.5624 days", "31 windows, periapsis passages of TARN (ICRF, TDB) in tarn.oem, SHA-256 0a1b2c3d…". */
export const windowSourceWords = (depot: Depot): string => {
  const { windowList } = depot;
  if (windowsOf(depot) === null) return "a sortie may leave at any time";
  if (windowList === null) return `a window every ${formatNumber(depot.windowPeriodDays ?? 0, 4)} days`;
  const { at, source } = windowList;
  const span = `${counted(at.length, "window")} from ${formatInstant(at[0] ?? 0)} to ${formatInstant(at.at(-1) ?? 0)}`;
  if (source.kind === "stated") return `${span}, stated${source.basis === "" ? "" : `: ${source.basis}`}`;
  const chosen = source.found === at.length ? "" : ` (of ${String(source.found)})`;
  return `${span}${chosen}, ${source.passage} passages of ${source.objectName} (${source.frame}, ${source.timeSystem}) in ${source.fileName}, SHA-256 ${source.sha256.slice(0, 8)}…`;
};
