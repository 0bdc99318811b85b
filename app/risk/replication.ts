/**
 * One replication: what a block has drawn is laid over the plan, and the forecast's own engine runs it. This is the hot
 * path: nothing is allocated here, and nothing else of the risk touches the engine.
 */
import { begin, createEngine, finish, propagate, runUntil } from "../forecast/propagate.ts";
import { phi1 } from "../forecast/level.ts";
import type { Run, RunInput } from "../forecast/run.ts";
import { DAY_MS } from "../ledger/quantity.ts";
import { drawCooler } from "./cooler.ts";
import { type DepartureRun, settleDepartures } from "./departures.ts";
import { type Draws, createDraws, drawBlock } from "./draws.ts";
import type { RiskModel } from "./risk-model.ts";
import { BLOCK } from "./stream.ts";

/** The kernel of one model. */
export interface Replicator {
  readonly model: RiskModel;
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
}

export const createReplicator = (model: RiskModel): Replicator => {
  const { run, input } = createEngine(model.plan);
  const flights = model.flights.length;
  return {
    model,
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
  };
};

/** Share of what flows that is kept under a factor on what is lost, kept off 0 as in the plan. */
const keptUnder = (keep: number, factor: number): number => Math.max(1e-9, 1 - Math.min(1, (1 - keep) * factor));

const layDemand = ({ model, draws }: Replicator, r: number): void => {
  const { needLoadKg, sortieLineStart } = model.plan;
  for (let sortie = 0; sortie < model.sorties.length; sortie += 1) {
    const factor = draws.demand[sortie * BLOCK + r] as number;
    const end = sortieLineStart[sortie + 1] as number;
    for (let need = sortieLineStart[sortie] as number; need < end; need += 1)
      needLoadKg[need] = (model.base.needLoadKg[need] as number) * factor;
  }
};

const layTransfer = ({ model, draws, run }: Replicator, r: number): void => {
  const { lineChillKg, lineKeep, lineFlight, lineOriginPool } = model.plan;
  for (let line = 0; line < lineFlight.length; line += 1) {
    const factor = draws.transfer[(lineFlight[line] as number) * BLOCK + r] as number;
    // A factor of 1 leaves the plan's own numbers, to the bit.
    const chill = (model.base.lineChillKg[line] as number) * factor;
    const keep =
      factor === 1 ? (model.base.lineKeep[line] as number) : keptUnder(model.base.lineKeep[line] as number, factor);
    lineChillKg[line] = chill;
    lineKeep[line] = keep;
    if ((lineOriginPool[line] as number) < 0)
      run.lineDeliverableKg[line] = Math.max(0, (run.lineOfferedKg[line] as number) - chill) * keep;
  }
};

/** Lays replication r of the drawn block over the plan. */
const lay = (replicator: Replicator, block: number, r: number): void => {
  const { model, draws, input, departures } = replicator;
  const flights = model.flights.length;
  for (let flight = 0; flight < flights; flight += 1) {
    const place = flight * BLOCK + r;
    input.flightSlipMs[flight] = draws.flightSlipMs[place] as number;
    input.flightIsLost[flight] = draws.flightIsLost[place] as number;
    departures.standMs[flight] = draws.standMs[place] as number;
  }
  settleDepartures(model.departures, departures);
  for (let sortie = 0; sortie < model.sorties.length; sortie += 1)
    input.sortieSlipMs[sortie] = draws.sortieSlipMs[sortie * BLOCK + r] as number;
  for (let tank = 0; tank < model.tanks.length; tank += 1) {
    input.rateFactor[tank] = draws.boilOff[tank * BLOCK + r] as number;
    model.plan.tankOpeningKg[tank] = draws.levelKg[tank * BLOCK + r] as number;
  }
  if (replicator.changesDemand) layDemand(replicator, r);
  if (replicator.changesTransfer) layTransfer(replicator, r);
  for (let place = 0; place < model.coolers.length; place += 1) {
    const cooler = model.coolers[place] as RiskModel["coolers"][number];
    const hasFailed = drawCooler(cooler, model.plan, { seed: model.seed, replication: block * BLOCK + r });
    replicator.coolerFailed[place] = hasFailed ? 1 : 0;
  }
  // Cooler events stand behind the plan's own: they have to be put in order even if nothing slips.
  if (model.coolers.length > 0) replicator.run.isReordered = true;
};

/** What a tank holds at an instant, without carrying it there: carried in two steps it would differ in the last bit. */
const levelAt = (run: Run, tank: number, at: number): number => {
  const m0 = run.massKg[tank] as number;
  const days = (at - (run.at[tank] as number)) / DAY_MS;
  if (days <= 0) return m0;
  const k = run.k[tank] as number;
  const fall = k * m0 + (run.c[tank] as number) - (run.f[tank] as number);
  const level = m0 - fall * days * phi1(k * days);
  return level > 0 ? level : 0;
};

const readBand = ({ model, run, bandKg }: Replicator, instant: number, at: number): void => {
  const { poolStart, poolTanks, poolKeys } = model.plan;
  const instants = model.bandsAt.length;
  for (let pool = 0; pool < poolKeys.length; pool += 1) {
    let sum = 0;
    const end = poolStart[pool + 1] as number;
    for (let i = poolStart[pool] as number; i < end; i += 1) sum += levelAt(run, poolTanks[i] as number, at);
    bandKg[pool * instants + instant] = sum;
  }
};

/** Runs replication r of the block that was drawn; results are in `run`, `bandKg` (if asked) and `departures`. */
export const replicate = (replicator: Replicator, block: number, r: number, withBands: boolean): void => {
  lay(replicator, block, r);
  const { run, input, model } = replicator;
  if (!withBands || model.bandsAt.length === 0) {
    propagate(run, input);
    return;
  }
  begin(run, input);
  for (let instant = 0; instant < model.bandsAt.length; instant += 1) {
    const at = model.bandsAt[instant] as number;
    runUntil(run, input, at);
    readBand(replicator, instant, at);
  }
  finish(run, input);
};

export const drawFor = (replicator: Replicator, block: number): void =>
  drawBlock(replicator.model, replicator.draws, block);
