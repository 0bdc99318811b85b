/** Hands the timeline and its level charts to those who copy and save charts. */
import { useEffect, useMemo } from "react";
import { overdueWords } from "../../../app/forecast/assumed.ts";
import type { Measure } from "../../../app/picture/shape.ts";
import { formatDate } from "../../format/instant.ts";
import { type ChartSource, useCharts } from "../../plot/chart-list.ts";
import { levelChartPicture, timelinePicture } from "../layout/paper.ts";
import type { Stage } from "./stage.ts";

/** Under these ids the timeline of a depot and its level charts are in the list of charts. */
export const wholeChart = (depotId: string): string => `timeline ${depotId}`;
export const levelChart = (depotId: string, propellantId: string): string =>
  `timeline ${depotId} level ${propellantId}`;

const sourcesOf = ({ model, place, frame }: Stage): ReadonlyMap<string, ChartSource> => {
  const depotId = model.depot.id;
  const { fromAt, untilAt } = frame.scale;
  const shown = `${formatDate(fromAt)} to ${formatDate(untilAt)}`;
  const assumed = overdueWords(model.plan, model.overdue);
  const notes = [
    ...(assumed === null ? [] : [`hatched bars and broken levels: ${assumed}`]),
    ...(model.compareName === null ? [] : [`compared with ${model.compareName}`]),
    ...(model.bandNote === null ? [] : [model.bandNote]),
    "mass in the units of the axes",
    "dates in UTC",
  ];
  const sized = (measure: Measure) => ({ ...frame, measure });
  const whole: ChartSource = {
    title: `${model.depot.name}: flights, sorties and levels, ${shown}`,
    notes,
    compose: (measure) => timelinePicture(model, place, sized(measure)),
  };
  const levels = model.levels.map(({ propellant }): [string, ChartSource] => [
    levelChart(depotId, propellant.id),
    {
      title: `${propellant.name} at ${model.depot.name}, ${shown}`,
      notes,
      compose: (measure) => levelChartPicture(model, place, sized(measure), propellant.id),
    },
  ]);
  return new Map([[wholeChart(depotId), whole], ...levels]);
};

export const usePaper = (stage: Stage | null): void => {
  const charts = useCharts();
  const sources = useMemo(() => (stage === null ? null : sourcesOf(stage)), [stage]);
  useEffect(() => {
    if (sources === null) return undefined;
    const removals = [...sources].map(([id, source]) => charts.add(id, source));
    return () => {
      for (const remove of removals) remove();
    };
  }, [charts, sources]);
};
