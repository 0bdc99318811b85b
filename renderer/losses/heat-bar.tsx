/** The heat budget of a tank as a picture. */
import { useCallback } from "react";
import type { HeatBudget } from "../../app/storage/heat-budget.ts";
import { Plot } from "../plot/plot.tsx";
import { heatHeight, heatPicture, heatWords } from "./heat-picture.ts";

interface HeatBarProps {
  readonly budget: HeatBudget;
  /** Stands in the inspector. */
  readonly isNarrow?: boolean;
}

export const HeatBar = ({ budget, isNarrow = false }: HeatBarProps) => {
  const compose = useCallback(
    (size: { width: number; height: number }) => heatPicture(budget, size, isNarrow),
    [budget, isNarrow],
  );
  return <Plot height={heatHeight(budget, isNarrow)} label={`Heat budget: ${heatWords(budget)}.`} compose={compose} />;
};
