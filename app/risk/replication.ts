/**
 * One replication: what a block has drawn is laid over the plan, and the forecast's own engine runs it. This is the hot
 * path: nothing is allocated here, and nothing else of the risk touches the engine.
 */
import { type Engine, createEngine } from "../forecast/propagate.ts";
import { type RunInput, createOutages } from "../forecast/run.ts";
import type { Run } from "../forecast/run-state.ts";
import { drawCooler, outageRoom } from "./cooler.ts";
import { type DepartureRun, settleDepartures } from "./departures.ts";
import { type Draws, createDraws, drawBlock } from "./draws.ts";
import type { RiskModel } from "./risk-model.ts";
import { BLOCK } from "./stream.ts";

/** The kernel of one model. */
export interface Replicator {
  readonly model: RiskModel;
  readonly engine: Engine;
  readonly run: Run;
  readonly draws: Draws;
  readonly input: RunInput;
  /** Slips of flights with groundings and hulls in them, ms; Infinity: does not depart. */
  readonly departures: DepartureRun;
  /** 1: the cooler failed in this replication; by place in model.coolers. */
  readonly coolerFailed: Uint8Array;
  /** Levels at the model's instants, by pool, kg: bandKg[pool × instants + instant]. */
  readonly bandKg: Float64Array;
  readonly changesDemand: boolean;
  readonly changesTransfer: boolean;
  /** The engine notes levels at the model's instants. */
  isWatched: boolean;
}

export const createReplicator = (model: RiskModel): Replicator => {
  const engine = createEngine(model.plan);
  const { run, input } = engine;
  input.outages = createOutages(outageRoom(model.coolers));
  const flights = model.flights.length;
  return {
    model,
    engine,
    run,
    input,
    draws: createDraws(model),
    departures: {
      slipMs: input.flightSlipMs,
      isLost: input.flightIsLost,
      standMs: new Float64Array(flights),
      queue: new Int32Array(flights),
      at: new Float64Array(flights),
    },
    coolerFailed: new Uint8Array(model.coolers.length),
    bandKg: new Float64Array(model.bandsAt.length * model.plan.poolKeys.length),
    changesDemand: model.sorties.some(({ demand }) => demand.sigma > 0),
    changesTransfer: model.flights.some(({ transfer }) => transfer.sigma > 0),
    isWatched: false,
  };
};

/** Share of what flows that is kept under a factor on what is lost, kept off 0 as in the plan. */
const keptUnder = (keep: number, factor: number): number => Math.max(1e-9, 1 - Math.min(1, (1 - keep) * factor));

const layDemand = ({ model, draws, engine }: Replicator, r: number): void => {
  const { needLoadKg, needChillKg, needKeep, sortieLineStart } = model.plan;
  for (let sortie = 0; sortie < model.sorties.length; sortie += 1) {
    const factor = draws.demand[sortie * BLOCK + r] as number;
    const end = sortieLineStart[sortie + 1] as number;
    for (let need = sortieLineStart[sortie] as number; need < end; need += 1)
      engine.setNeed(
        need,
        (needLoadKg[need] as number) * factor,
        needChillKg[need] as number,
        needKeep[need] as number,
      );
  }
};

const layTransfer = ({ model, draws, engine }: Replicator, r: number): void => {
  const { lineLoadedKg, lineChillKg, lineKeep, lineFlight } = model.plan;
  for (let line = 0; line < lineFlight.length; line += 1) {
    const factor = draws.transfer[(lineFlight[line] as number) * BLOCK + r] as number;
    const keep = lineKeep[line] as number;
    // A factor of 1 leaves the plan's own numbers, to the bit.
    engine.setLine(
      line,
      lineLoadedKg[line] as number,
      (lineChillKg[line] as number) * factor,
      factor === 1 ? keep : keptUnder(keep, factor),
    );
  }
};

/** Fails and repairs the coolers of a replication. */
const layCoolers = ({ model, input, coolerFailed }: Replicator, replication: number): void => {
  input.outages.count = 0;
  for (let index = 0; index < model.coolers.length; index += 1) {
    const cooler = model.coolers[index] as RiskModel["coolers"][number];
    coolerFailed[index] = drawCooler(cooler, model.plan, input.outages, { seed: model.seed, replication }) ? 1 : 0;
  }
};

/** Lays replication r of the drawn block over the plan. */
const lay = (replicator: Replicator, block: number, r: number): void => {
  const { model, draws, input, departures } = replicator;
  const flights = model.flights.length;
  const { flightSlipMs, flightIsLost } = draws;
  const { slipMs, isLost } = departures;
  for (let flight = 0; flight < flights; flight += 1) {
    const index = flight * BLOCK + r;
    const lost = flightIsLost[index] as number;
    slipMs[flight] = flightSlipMs[index] as number;
    isLost[flight] = lost;
    // Asked for only where the flight is lost.
    if (lost === 1) departures.standMs[flight] = draws.standMs[index] as number;
  }
  settleDepartures(model.departures, departures);
  for (let sortie = 0; sortie < model.sorties.length; sortie += 1)
    input.sortieSlipMs[sortie] = draws.sortieSlipMs[sortie * BLOCK + r] as number;
  for (let tank = 0; tank < model.tanks.length; tank += 1) {
    input.rateFactor[tank] = draws.boilOff[tank * BLOCK + r] as number;
    input.openingKg[tank] = draws.levelKg[tank * BLOCK + r] as number;
  }
  if (replicator.changesDemand) layDemand(replicator, r);
  if (replicator.changesTransfer) layTransfer(replicator, r);
  if (model.coolers.length > 0) layCoolers(replicator, block * BLOCK + r);
};

/** Sums the tanks of each pool at the model's instants. */
const readBands = ({ model, engine, bandKg }: Replicator): void => {
  const { poolStart, poolTanks, poolKeys } = model.plan;
  const { watchedKg } = engine;
  const instants = model.bandsAt.length;
  for (let pool = 0; pool < poolKeys.length; pool += 1) {
    const to = pool * instants;
    const first = poolStart[pool] as number;
    const end = poolStart[pool + 1] as number;
    if (first === end) bandKg.fill(0, to, to + instants);
    for (let i = first; i < end; i += 1) {
      const from = (poolTanks[i] as number) * instants;
      // Most pools have one tank, whose levels are those of the pool.
      if (i === first) for (let n = 0; n < instants; n += 1) bandKg[to + n] = watchedKg[from + n] as number;
      else
        for (let n = 0; n < instants; n += 1)
          bandKg[to + n] = (bandKg[to + n] as number) + (watchedKg[from + n] as number);
    }
  }
};

/** Runs replication r of the block that was drawn; results are in `run`, `bandKg` (if asked) and `departures`. */
export const replicate = (replicator: Replicator, block: number, r: number, withBands: boolean): void => {
  lay(replicator, block, r);
  const { engine, model } = replicator;
  const isWatched = withBands && model.bandsAt.length > 0;
  if (isWatched !== replicator.isWatched) {
    engine.watch(isWatched ? model.bandsAt : null);
    replicator.isWatched = isWatched;
  }
  engine.go();
  if (isWatched) readBands(replicator);
};

export const drawFor = (replicator: Replicator, block: number): void =>
  drawBlock(replicator.model, replicator.draws, block);
