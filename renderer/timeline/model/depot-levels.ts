/** The levels that the timeline draws: those of the chosen depot, of a plan case in the page. */
import { type LevelSource, levelSources, stretchesOf } from "../../../app/picture/level/level-source.ts";
import type { Band } from "../../../app/risk/answer.ts";
import type { LevelHistory } from "../../../app/storage/segment.ts";
import type { CaseForecast } from "../../state/case-forecast.ts";

/** The levels of one depot, in the order of the propellants. */
export const depotLevels = (
  current: CaseForecast,
  compare: CaseForecast | null,
  depotId: string,
  risk: { readonly bands: readonly Band[]; readonly isOld: boolean } | null,
): readonly LevelSource[] =>
  levelSources(
    {
      plan: current.plan,
      past: current.view.past,
      readings: current.view.readings,
      forecast: current.forecast.levels,
      compare: compare === null ? null : compare.forecast.levels,
      findings: current.glance.findings,
      risk,
    },
    depotId,
  );

/** The same levels with the forecast of a changed plan: what a drag frame needs. */
export const withForecast = (
  sources: readonly LevelSource[],
  levels: readonly LevelHistory[],
): readonly LevelSource[] => sources.map((source) => ({ ...source, forecast: stretchesOf(levels, source.tanks) }));
