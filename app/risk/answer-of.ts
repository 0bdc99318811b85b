/** From a tally to the answer. */
import { DAY_MS } from "../ground/quantity.ts";
import type { Band, Histogram, PoolRisk, RiskAnswer, RiskIdentity, RunEnd, SortieRisk } from "./answer.ts";
import { commonCauses } from "./common-causes.ts";
import { histogramOf, meanOf, quantilesOf, shareOf } from "./estimate.ts";
import type { RiskModel } from "./risk-model.ts";
import { COUNT, LEVEL_BINS, MASS, MASSES, MISSING_BINS, type Tally } from "./tally.ts";

const HOURS_A_DAY = 24;
const HOUR_MS = DAY_MS / HOURS_A_DAY;

/** Delays that are asked for by name, days. */
const WITHIN_DAYS: readonly number[] = [0, 7, 14, 30, 60, 90, 180];

/** Bins of a drawn distribution. */
const DRAWN_BINS = 40;

const BAND_SHARES: readonly number[] = [0.05, 0.1, 0.5, 0.9, 0.95];

const countOf = (tally: Tally, index: number): number => tally.counts[index] as number;

/** Bin 0 holds what is exactly 0; bin n what lies in (n − 1, n] hours. In days. */
const daysAt = (bin: number, share: number): number => (bin === 0 ? 0 : (bin - 1 + share) / HOURS_A_DAY);

const flownWithin = (delays: Uint32Array, n: number): SortieRisk["flownWithin"] => {
  let bin = 0;
  let sum = 0;
  return WITHIN_DAYS.map((days) => {
    for (; bin <= days * HOURS_A_DAY && bin < delays.length; bin += 1) sum += delays[bin] as number;
    return { days, share: shareOf(sum, n) };
  });
};

const extraKg = (model: RiskModel, tally: Tally, need: number): SortieRisk["extraKg"][number] => {
  const width = MISSING_BINS + 2;
  const counts = tally.missing.subarray(need * width, (need + 1) * width);
  const keep = model.plan.needKeep[need] as number;
  const span = ((model.plan.needChillKg[need] as number) + (model.plan.needLoadKg[need] as number) / keep) * 1.25;
  // The last bin holds what is more than the span: there is no number for it.
  const kgAt = (bin: number, share: number): number =>
    bin === 0 ? 0 : bin > MISSING_BINS ? Number.NaN : ((bin - 1 + share) / MISSING_BINS) * span;
  const found = quantilesOf(counts, [0.9, 0.95], kgAt);
  const finite = (index: number) => {
    const one = found?.[index] ?? null;
    return one === null || Number.isNaN(one.high + one.value) ? null : one;
  };
  return { propellantId: model.plan.needPropellantIds[need] ?? "", for90: finite(0), for95: finite(1) };
};

const sortieRisk = (model: RiskModel, tally: Tally, sortie: number): SortieRisk => {
  const { plan, snapshot } = model;
  const n = countOf(tally, COUNT.replications);
  const delays = tally.delays.subarray(tally.shape.delayStart[sortie], tally.shape.delayStart[sortie + 1]);
  const [p50, p80, p90] = quantilesOf(delays, [0.5, 0.8, 0.9], daysAt) ?? [];
  const needs = Array.from(
    { length: (plan.sortieLineStart[sortie + 1] as number) - (plan.sortieLineStart[sortie] as number) },
    (_, index) => (plan.sortieLineStart[sortie] as number) + index,
  );
  const sortieId = plan.sortieIds[sortie] ?? "";
  return {
    sortieId,
    key: snapshot.sorties.find((row) => row.id === sortieId)?.key ?? sortieId,
    fliesWhenPlanned: shareOf(tally.firstTry[sortie] as number, n),
    flies: shareOf(tally.flown[sortie] as number, n),
    delayDays: p50 === undefined || p80 === undefined || p90 === undefined ? null : { p50, p80, p90 },
    flownWithin: flownWithin(delays, n),
    delays: histogramOf(delays, DRAWN_BINS, (bin) => daysAt(bin, 0)),
    shortOf: needs.map((need) => ({
      propellantId: plan.needPropellantIds[need] ?? "",
      share: shareOf(tally.needShort[need] as number, n),
    })),
    landerAway: shareOf(tally.landerAway[sortie] as number, n),
    pastHorizon: shareOf(tally.pastHorizon[sortie] as number, n),
    extraKg: needs.map((need) => extraKg(model, tally, need)),
    common: commonCauses(model, tally, sortie),
  };
};

const bandOf = (model: RiskModel, tally: Tally, pool: number): Band => {
  const { plan, bandsAt } = model;
  const key = plan.poolKeys[pool];
  let maximumKg = 0;
  plan.tankPool.forEach((other, tank) => {
    if (other === pool) maximumKg += plan.tankMaximumKg[tank] as number;
  });
  const width = LEVEL_BINS + 1;
  const kgAt = (bin: number, share: number): number =>
    bin >= LEVEL_BINS ? maximumKg : ((bin + share) / LEVEL_BINS) * maximumKg;
  const columns = Array.from(bandsAt, (_, instant) => {
    const from = (pool * bandsAt.length + instant) * width;
    return quantilesOf(tally.levels.subarray(from, from + width), BAND_SHARES, kgAt);
  });
  const curve = (index: number): number[] => columns.map((column) => column?.[index]?.value ?? 0);
  return {
    depotId: key?.depotId ?? "",
    propellantId: key?.propellantId ?? "",
    at: [...bandsAt],
    p5: curve(0),
    p10: curve(1),
    p50: curve(2),
    p90: curve(3),
    p95: curve(4),
  };
};

const poolRisk = (model: RiskModel, tally: Tally, pool: number): PoolRisk => {
  const key = model.plan.poolKeys[pool];
  const n = countOf(tally, COUNT.replications);
  const massOf = (kind: number) => {
    const index = pool * MASSES + kind;
    return meanOf(Number(tally.grams[index]) / 1000, Number(tally.squares[index]), n);
  };
  return {
    depotId: key?.depotId ?? "",
    propellantId: key?.propellantId ?? "",
    boilOffKg: massOf(MASS.boilOff),
    notTakenKg: massOf(MASS.notTaken),
    ventedKg: massOf(MASS.vented),
  };
};

const campaignEnd = (model: RiskModel, tally: Tally): RiskAnswer["campaignEndAt"] => {
  const atHour = (bin: number, share: number): number => Math.round(model.plan.asOfAt + (bin - 1 + share) * HOUR_MS);
  const [p50, p80, p90] = quantilesOf(tally.ends, [0.5, 0.8, 0.9], atHour) ?? [];
  if (p50 === undefined || p80 === undefined || p90 === undefined) return null;
  const histogram: Histogram = histogramOf(tally.ends, DRAWN_BINS, (bin) => atHour(bin, 0));
  return { p50, p80, p90, histogram };
};

const remarksOf = (model: RiskModel): readonly string[] => {
  const { snapshot, plan } = model;
  const beyond = snapshot.sorties.filter(
    (row) => row.status === "planned" && !plan.sortieIds.includes(row.id) && row.loadAt > plan.horizonAt,
  );
  const departed = snapshot.flights.filter((row) => row.status === "departed");
  return [
    ...beyond.map(({ name }) => `${name} is planned after the end of the forecast and is left out.`),
    ...(departed.length === 0
      ? []
      : [`Flights already under way (${departed.map(({ name }) => name).join(", ")}) can be lost here, but not slip.`]),
    "A sortie that would load after the end of the forecast counts as not flown.",
  ];
};

/** Pools that are anybody's concern: those with a tank. */
const poolsOf = (model: RiskModel): readonly number[] =>
  [...model.plan.poolKeys.keys()].filter(
    (pool) => (model.plan.poolStart[pool + 1] as number) > (model.plan.poolStart[pool] as number),
  );

/** The answer as far as the tally goes; drivers and dropped flights are added by those who ran them. */
export const answerOf = (model: RiskModel, tally: Tally, identity: RiskIdentity, end: RunEnd): RiskAnswer => {
  const n = countOf(tally, COUNT.replications);
  const flown = [...tally.flownCounts];
  const { list } = model.inputs;
  const ahead = [...model.plan.sortieIds.keys()].filter((sortie) => model.plan.sortieIsOut[sortie] === 0);
  const pools = poolsOf(model);
  return {
    ...identity,
    planCaseId: model.snapshot.planCase.id,
    asOfAt: model.plan.asOfAt,
    horizonAt: model.plan.horizonAt,
    replications: n,
    bandReplications: countOf(tally, COUNT.banded),
    end,
    inputs: { count: list.length, assumed: list.filter(({ source }) => source === null).length },
    remarks: remarksOf(model),
    allFlyWhenPlanned: shareOf(countOf(tally, COUNT.allFirstTry), n),
    allFly: shareOf(countOf(tally, COUNT.allFly), n),
    sortiesFlown: meanOf(
      flown.reduce((sum, count, k) => sum + count * k, 0),
      flown.reduce((sum, count, k) => sum + count * k * k, 0),
      n,
    ),
    flownCounts: flown,
    sorties: ahead.map((sortie) => sortieRisk(model, tally, sortie)),
    campaignEndAt: campaignEnd(model, tally),
    pools: pools.map((pool) => poolRisk(model, tally, pool)),
    flightsUsed: meanOf(countOf(tally, COUNT.used), countOf(tally, COUNT.usedSquared), n),
    flightsLost: meanOf(countOf(tally, COUNT.lost), countOf(tally, COUNT.lostSquared), n),
    bands: model.bandsAt.length === 0 ? [] : pools.map((pool) => bandOf(model, tally, pool)),
  };
};
