/** The random inputs of one block: 64 replications of every input, each from its own stream. */
import { windowFrom } from "../entity/windows.ts";
import { drawFactors, drawLevels, drawLossProbabilities } from "./factor-column.ts";
import type { RiskModel } from "./risk-model.ts";
import { drawSlips } from "./slip-column.ts";
import { BLOCK, STREAM, fillUnits, keyHash, seedStream } from "./stream.ts";

/** Columns of 64: what[subject × 64 + replication]. */
export interface Draws {
  readonly flightSlipMs: Float64Array;
  /** 1: lost. */
  readonly flightIsLost: Uint8Array;
  /** Stand-down after the loss of a flight; only where it is lost in some replication of the block. */
  readonly standMs: Float64Array;
  readonly transfer: Float64Array;
  readonly sortieSlipMs: Float64Array;
  readonly demand: Float64Array;
  readonly boilOff: Float64Array;
  readonly levelKg: Float64Array;
}

export const createDraws = (model: RiskModel): Draws => {
  const flights = model.flights.length * BLOCK;
  const sorties = model.sorties.length * BLOCK;
  const tanks = model.tanks.length * BLOCK;
  return {
    flightSlipMs: new Float64Array(flights),
    flightIsLost: new Uint8Array(flights),
    standMs: new Float64Array(flights),
    transfer: new Float64Array(flights).fill(1),
    sortieSlipMs: new Float64Array(sorties),
    demand: new Float64Array(sorties).fill(1),
    boilOff: new Float64Array(tanks).fill(1),
    levelKg: new Float64Array(tanks),
  };
};

const units = new Float64Array(BLOCK);

/** Salt of the words that say whether a flight is lost: apart from those of its slip, so that neither moves the other. */
const LOSS_SALT = keyHash(STREAM.flight, "loss");

const drawFlights = (model: RiskModel, draws: Draws, block: number): void => {
  const { seed } = model;
  const probabilities = model.trials.map(({ key, successes, trials }) => {
    const column = new Float64Array(BLOCK);
    seedStream(seed, key, block);
    drawLossProbabilities(column, successes, trials);
    return column;
  });
  model.flights.forEach((flight, index) => {
    const at = index * BLOCK;
    seedStream(seed, flight.key, block);
    drawSlips(draws.flightSlipMs, at, flight.slip);
    let isLostOnce = false;
    const { loss } = flight;
    if (loss.probability > 0) {
      seedStream(seed, flight.key ^ LOSS_SALT, block);
      fillUnits(units, BLOCK);
      const drawn = loss.trial < 0 ? null : (probabilities[loss.trial] as Float64Array);
      for (let r = 0; r < BLOCK; r += 1) {
        const probability = drawn === null ? loss.probability : (drawn[r] as number);
        const isLost = (units[r] as number) < probability;
        draws.flightIsLost[at + r] = isLost ? 1 : 0;
        isLostOnce ||= isLost;
      }
    }
    if (flight.isDropped) draws.flightSlipMs.fill(Infinity, at, at + BLOCK);
    if (flight.isDropped) draws.flightIsLost.fill(0, at, at + BLOCK);
    else if (isLostOnce) {
      seedStream(seed, flight.standKey, block);
      drawSlips(draws.standMs, at, flight.stand, draws.flightIsLost);
    }
    if (flight.transfer.sigma > 0) {
      seedStream(seed, flight.transfer.key, block);
      drawFactors(draws.transfer, at, flight.transfer.sigma);
    }
  });
};

/** A sortie that slips at a depot with windows goes to the next of them; after the last of a list there is none. */
const toWindows = (model: RiskModel, draws: Draws, sortie: number): void => {
  const { windows } = model.sorties[sortie] as RiskModel["sorties"][number];
  if (windows === null) return;
  const plannedAt = model.plan.sortieLoadAt[sortie] as number;
  const from = sortie * BLOCK;
  for (let index = from; index < from + BLOCK; index += 1) {
    const slip = draws.sortieSlipMs[index] as number;
    if (slip > 0) draws.sortieSlipMs[index] = windowFrom(windows, plannedAt + slip) - plannedAt;
  }
};

/** Draws a block. The same seed and block give the same columns, whatever was drawn before. */
export const drawBlock = (model: RiskModel, draws: Draws, block: number): void => {
  const { seed } = model;
  drawFlights(model, draws, block);
  model.sorties.forEach((sortie, index) => {
    seedStream(seed, sortie.key, block);
    drawSlips(draws.sortieSlipMs, index * BLOCK, sortie.slip);
    toWindows(model, draws, index);
    if (sortie.demand.sigma === 0) return;
    seedStream(seed, sortie.demand.key, block);
    drawFactors(draws.demand, index * BLOCK, sortie.demand.sigma);
  });
  model.tanks.forEach(({ boilOff, level }, tank) => {
    if (boilOff.sigma > 0) {
      seedStream(seed, boilOff.key, block);
      drawFactors(draws.boilOff, tank * BLOCK, boilOff.sigma);
    }
    const meanKg = model.plan.tankOpeningKg[tank] as number;
    if (level.sigma > 0) seedStream(seed, level.key, block);
    drawLevels(draws.levelKg, tank * BLOCK, {
      meanKg,
      sigmaKg: level.sigma,
      maximumKg: model.plan.tankMaximumKg[tank] as number,
    });
  });
};
