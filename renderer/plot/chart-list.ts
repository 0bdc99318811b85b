/** The charts on screen, and which of them "Copy chart" means: the one last pointed at or focused, else the first. */
import { createContext, useContext } from "react";
import type { Measure, Picture } from "../../app/picture/shape.ts";

/** A chart as it can leave the program. */
export interface ChartSource {
  /** Says what it shows and of what: "Loss by cause: Tarn, hydrogen". */
  readonly title: string;
  /** Units and whatever else the chart itself does not say, each a few words. */
  readonly notes: readonly string[];
  readonly compose: (measure: Measure) => Picture;
}

export interface ChartList {
  /** The answer takes it away again. */
  readonly add: (id: string, source: ChartSource) => () => void;
  /** From now on this one is meant, while it is there. */
  readonly touch: (id: string) => void;
  /** null: no chart is on screen. */
  readonly meant: () => ChartSource | null;
  readonly subscribe: (listener: () => void) => () => void;
}

export const createChartList = (): ChartList => {
  const sources = new Map<string, ChartSource>();
  const listeners = new Set<() => void>();
  let touched: string | null = null;
  const tell = (): void => {
    for (const listener of listeners) listener();
  };
  return {
    add: (id, source) => {
      sources.set(id, source);
      tell();
      return () => {
        // The newer source of the same chart stays.
        if (sources.get(id) !== source) return;
        sources.delete(id);
        tell();
      };
    },
    touch: (id) => {
      if (touched === id) return;
      touched = id;
      tell();
    },
    meant: () => sources.get(touched ?? "") ?? sources.values().next().value ?? null,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
};

/** One for the page; a test makes its own. */
export const ChartsContext = createContext<ChartList>(createChartList());

export const useCharts = (): ChartList => useContext(ChartsContext);
