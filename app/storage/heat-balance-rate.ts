/** The loss rate that follows from a heat balance. */
import type { HeatBalance } from "../entity/heat-balance.ts";
import { boiledKgPerDay } from "./boil-off.ts";
import { heatBudget } from "./heat-budget.ts";

/** c = Q_net·86,400/h_fg at the tank's pressure, kg/day; k = 0, for heat does not ask how much liquid there is. */
export const heatBalanceRate = (balance: HeatBalance): { readonly kPerDay: number; readonly cKgPerDay: number } => {
  const { netW, state } = heatBudget(balance);
  return { kPerDay: 0, cKgPerDay: boiledKgPerDay(netW, state.vaporisationKJPerKg) };
};
