/** The words and shapes of a supply status, the same on every view. */
import type { SupplyStatus } from "../../app/supply/report.ts";

/** ● filled, ◐ half, ○ with a bar; drawn, not typed, wherever there is room (see charts/draw and the widgets). */
export const statusShapes: Readonly<Record<SupplyStatus, string>> = { supplied: "●", thin: "◐", short: "⦵" };

/** The colour token of a status. */
export const statusTokens: Readonly<Record<SupplyStatus, string>> = {
  supplied: "--status-supplied",
  thin: "--status-thin",
  short: "--status-short",
};
