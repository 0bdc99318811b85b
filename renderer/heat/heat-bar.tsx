/** The heat budget of a tank as a picture. */
import { useCallback } from "react";
import type { HeatBudget } from "../../app/storage/heat-budget.ts";
import { Plot } from "../plot/plot.tsx";
import { heatHeight, heatPicture, heatWords } from "./heat-picture.ts";

interface HeatBarProps {
  /** Of which tank. */
  readonly of: string;
  readonly budget: HeatBudget;
  /** Stands in the inspector. */
  readonly isNarrow?: boolean;
}

const notes = ["heat in W"];

export const HeatBar = ({ of, budget, isNarrow = false }: HeatBarProps) => {
  const compose = useCallback(
    (size: { width: number; height: number }) => heatPicture(budget, size, isNarrow),
    [budget, isNarrow],
  );
  const composePaper = useCallback(
    (width: number) => heatPicture(budget, { width, height: heatHeight(budget, false) }, false),
    [budget],
  );
  return (
    <Plot
      title={`Heat budget: ${of}`}
      notes={notes}
      height={heatHeight(budget, isNarrow)}
      label={`Heat budget: ${heatWords(budget)}.`}
      compose={compose}
      composePaper={composePaper}
    />
  );
};
