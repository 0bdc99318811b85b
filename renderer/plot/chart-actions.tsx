/** Carries out what is done with charts from the menus: on the one that is meant. */
import { useSyncExternalStore } from "react";
import { useAction } from "../actions/use-actions.ts";
import { useSession } from "../state/use-session.ts";
import { useCharts } from "./chart-list.ts";
import { copyChart, saveChart } from "./take-chart.ts";

export const ChartActions = () => {
  const session = useSession();
  const charts = useCharts();
  const source = useSyncExternalStore(charts.subscribe, charts.meant);
  const unable = source === null ? "No chart is on screen." : null;
  useAction("chart.copy", () => void (source && copyChart(session, source)), { unable });
  useAction("chart.savePng", () => void (source && saveChart(session, source, "png")), { unable });
  useAction("chart.saveSvg", () => void (source && saveChart(session, source, "svg")), { unable });
  return null;
};
