/** The mass axis of a level chart: from empty to what must be seen, few ticks. */
import { tickStep, ticks } from "d3-array";
import { type MassUnit, unitOf } from "../format/mass.ts";
import { formatNumber } from "../format/number.ts";

export interface MassTick {
  readonly massKg: number;
  readonly y: number;
  /** The figure without its unit, which stands at the topmost alone. */
  readonly label: string;
}

export interface MassScale {
  readonly topKg: number;
  readonly unit: "t" | "kg";
  readonly y: (massKg: number) => number;
  readonly ticks: readonly MassTick[];
}

/** `highestKg`: the highest mass that must be seen (0: an empty axis of 1 kg). Ticks about 32 pixels apart. */
export const massScale = (highestKg: number, top: number, bottom: number, choice: MassUnit): MassScale => {
  const topKg = highestKg > 0 ? highestKg * 1.06 : 1;
  const y = (massKg: number): number => bottom - (massKg / topKg) * (bottom - top);
  const count = Math.max(1, Math.round((bottom - top) / 32));
  const values = ticks(0, topKg, count);
  const unit = unitOf(topKg, choice);
  const divisor = unit === "t" ? 1000 : 1;
  const step = tickStep(0, topKg, count) / divisor;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return {
    topKg,
    unit,
    y,
    ticks: values.map((massKg) => ({ massKg, y: y(massKg), label: formatNumber(massKg / divisor, decimals) })),
  };
};
