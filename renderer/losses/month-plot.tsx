/** Loss by cause, month by month. */
import { useCallback } from "react";
import type { Statement } from "../../app/losses/statement.ts";
import { propellantInk } from "../../app/picture/ink.ts";
import { screenLook } from "../../app/picture/look.ts";
import { lossPicture } from "../../app/picture/loss-picture.ts";
import { formatNumber } from "../format/number.ts";
import { Plot } from "../plot/plot.tsx";

interface MonthPlotProps {
  /** Depot and propellant. */
  readonly of: string;
  readonly statement: Statement;
  readonly position: number;
  readonly labelOf: (fromAt: number) => string;
}

const notes = ["mass in kg, by month"];

export const MonthPlot = ({ of, statement, position, labelOf }: MonthPlotProps) => {
  const compose = useCallback(
    (size: { width: number; height: number }) =>
      lossPicture({ months: statement.lines, labelOf, ink: propellantInk(position) }, size, screenLook),
    [statement, labelOf, position],
  );
  const boiled = formatNumber(statement.total.boilOffGrams / 1000, 1);
  return (
    <figure>
      <h3>Loss by cause</h3>
      <Plot
        title={`Loss by cause: ${of}`}
        notes={notes}
        height={220}
        label={`Loss by cause and month; ${boiled} kg boiled off in all. The statement has the figures.`}
        compose={compose}
      />
    </figure>
  );
};
