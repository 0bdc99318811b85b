/** One tank's heat balance with everything that follows from it: budget, rates in every unit, what is vented, hold time. */
import type { HeatBalance } from "../entity/heat-balance.ts";
import { boiledKgPerDay, ventedShare } from "./boil-off.ts";
import { coolerPaysAfterDays } from "./cooler.ts";
import { type HeatBudget, heatBudget } from "./heat-budget.ts";
import { type HoldTime, holdTime } from "./lock-up.ts";
import { lossFormMeaning, type RateInUnits, rateInUnits } from "./rate-units.ts";

/** The tank that the balance is applied to. */
export interface StoredTank {
  readonly levelKg: number;
  /** null: not known; then no hold time. */
  readonly volumeM3: number | null;
  /** Pressure at which it must vent, kPa; null: not asked. */
  readonly reliefKPa: number | null;
}

export interface StorageSheet {
  readonly budget: HeatBudget;
  /** With the coolers as they are; with none running; with all running. */
  readonly rate: RateInUnits;
  readonly rateCoolersOff: RateInUnits;
  readonly rateCoolersOn: RateInUnits;
  /** What the percentages mean. */
  readonly meaning: string;
  /** Of what boils, kg/day that must be vented at constant pressure. */
  readonly ventedKgPerDay: number;
  /** The running coolers lift all that comes in. */
  readonly isZeroBoilOff: boolean;
  /** Days after which all coolers together have saved their mass and their supply's; null: nothing saved, or no coolers. */
  readonly coolersPayAfterDays: number | null;
  /** The mass of supply per watt that this rests on, kg/W. */
  readonly supplyKgPerW: number;
  /**
   * Closed, from the present pressure: with the coolers as they are, and with none running. Null where volume or relief
   * pressure is not known or the fill is out of range.
   */
  readonly hold: HoldTime | null;
  readonly holdCoolersOff: HoldTime | null;
}

/** Solar array, converter and radiator together, kg per electric watt: an assumption of this program, shown as one. */
export const ASSUMED_SUPPLY_KG_PER_W = 0.05;

/** Pressure up to which a tank is held closed where nobody says another, kPa: an assumption, shown as one. */
export const ASSUMED_RELIEF_KPA = 300;

const withCoolers = (balance: HeatBalance, isRunning: boolean): HeatBalance => ({
  ...balance,
  coolers: balance.coolers.map((cooler) => ({ ...cooler, isRunning })),
});

/** Share of the volume that is liquid, from the mass of liquid. */
const fillFraction = (tank: StoredTank, liquidKgPerM3: number): number | null =>
  tank.volumeM3 === null ? null : tank.levelKg / (liquidKgPerM3 * tank.volumeM3);

const holdOf = (balance: HeatBalance, budget: HeatBudget, tank: StoredTank): HoldTime | null => {
  const fill = fillFraction(tank, budget.state.liquidKgPerM3);
  if (fill === null || tank.volumeM3 === null || tank.reliefKPa === null || !(fill > 0 && fill < 1)) return null;
  return holdTime(balance.fluid, fill, balance.pressureKPa, tank.reliefKPa, tank.volumeM3, budget.netW);
};

/** Throws "invalid input" if the insulation cannot be or the relief pressure is not above the tank's. */
export const storageSheet = (
  balance: HeatBalance,
  tank: StoredTank,
  supplyKgPerW: number = ASSUMED_SUPPLY_KG_PER_W,
): StorageSheet => {
  const budget = heatBudget(balance);
  const heat = budget.state.vaporisationKJPerKg;
  const boiledBy = (netW: number): number => boiledKgPerDay(netW, heat);
  const unitsOf = (netW: number): RateInUnits =>
    rateInUnits({ kPerDay: 0, cKgPerDay: boiledBy(netW) }, tank.levelKg, heat);
  const off = heatBudget(withCoolers(balance, false));
  const on = heatBudget(withCoolers(balance, true));
  return {
    budget,
    rate: unitsOf(budget.netW),
    rateCoolersOff: unitsOf(off.netW),
    rateCoolersOn: unitsOf(on.netW),
    // Heat does not ask how much liquid it boils.
    meaning: lossFormMeaning.constant,
    ventedKgPerDay: boiledBy(budget.netW) * ventedShare(budget.state),
    isZeroBoilOff: budget.netW === 0 && budget.heatInW > 0,
    coolersPayAfterDays:
      balance.coolers.length === 0
        ? null
        : coolerPaysAfterDays(
            { massKg: on.coolerMassKg, powerW: on.coolerPowerW },
            supplyKgPerW,
            boiledBy(off.netW) - boiledBy(on.netW),
          ),
    supplyKgPerW,
    hold: holdOf(balance, budget, tank),
    holdCoolersOff: holdOf(balance, off, tank),
  };
};
