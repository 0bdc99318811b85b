/** A job in the kernel's form: the compiled plan with room for what a replication changes, and every input's law. */
import { compile } from "../forecast/compile.ts";
import type { CompiledPlan } from "../forecast/compiled-plan.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { Windows } from "../entity/windows.ts";
import { type CoolerModel, coolerModels } from "./cooler.ts";
import type { DeparturePlan } from "./departures.ts";
import { type RiskInputs, inputsInForce } from "./inputs-in-force.ts";
import type { RiskJob } from "./risk-job.ts";
import { type SlipSampler, type Taken, slipSampler } from "./slip-column.ts";
import { STREAM, keyHash } from "./stream.ts";

/** How a flight is lost: a probability, or one that is drawn for all that share it. */
export interface LossModel {
  readonly probability: number;
  /** Index of the drawn probability; −1: `probability` holds. */
  readonly trial: number;
}

export interface TrialModel {
  readonly key: number;
  readonly successes: number;
  readonly trials: number;
}

/** One subject of a factor or level: its stream, and its spread. */
export interface SpreadModel {
  readonly key: number;
  readonly sigma: number;
}

export interface RiskModel {
  readonly seed: number;
  readonly snapshot: PlanSnapshot;
  readonly inputs: RiskInputs;
  readonly plan: CompiledPlan;
  readonly flights: readonly {
    readonly key: number;
    readonly standKey: number;
    readonly slip: SlipSampler;
    readonly stand: SlipSampler;
    readonly loss: LossModel;
    readonly isDropped: boolean;
    readonly transfer: SpreadModel;
  }[];
  readonly trials: readonly TrialModel[];
  readonly departures: DeparturePlan;
  readonly sorties: readonly {
    readonly key: number;
    readonly slip: SlipSampler;
    readonly demand: SpreadModel;
    /** Departure windows of the depot; null: it has none. */
    readonly windows: Windows | null;
    /** As written, ms; an overdue sortie is compiled later than that. */
    readonly writtenAt: number;
  }[];
  readonly tanks: readonly { readonly boilOff: SpreadModel; readonly level: SpreadModel }[];
  readonly coolers: readonly CoolerModel[];
  readonly bandsAt: Float64Array;
}

/** How each input is taken under the job's variant. */
const takenBy =
  ({ variant }: RiskJob): ((inputId: string) => Taken) =>
  (inputId) =>
    variant.certainInputIds?.includes(inputId) === true
      ? "as planned"
      : variant.frozenInputIds?.includes(inputId) === true
        ? "at its median"
        : "drawn";

/** A factor's median is 1 and a level's is the level: frozen and certain are the same. */
const sigmaOf = (sigma: number, taken: Taken): number => (taken === "drawn" ? sigma : 0);

/** Flights of a class in order, and the chains of each hull. A dropped flight is in none. */
const departurePlan = (plan: PlanSnapshot, compiled: CompiledPlan, isDropped: Uint8Array): DeparturePlan => {
  const rows = new Map(plan.flights.map((row) => [row.id, row]));
  const classOf = new Map(plan.craft.map((row) => [row.id, row.classId]));
  const indices = compiled.flightIds
    .map((_, index) => index)
    .filter((index) => isDropped[index] === 0)
    .toSorted((a, b) => (compiled.flightDepartAt[a] as number) - (compiled.flightDepartAt[b] as number) || a - b);
  const rowOf = (index: number) => rows.get(compiled.flightIds[index] ?? "");
  const byClass = Map.groupBy(indices, (index) => classOf.get(rowOf(index)?.craftId ?? "") ?? "");
  const turnaroundMs = new Map(plan.craftClasses.map((row) => [row.id, row.turnaroundDays * DAY_MS]));
  const byHull = Map.groupBy(indices, (index) => rowOf(index)?.craftId ?? "");
  const hullNext = new Int32Array(compiled.flightIds.length).fill(-1);
  const hullRoomMs = new Float64Array(compiled.flightIds.length);
  for (const flights of byHull.values())
    flights.forEach((flight, index) => {
      const next = flights[index + 1];
      if (next === undefined) return;
      const endsAt = (compiled.flightArriveAt[flight] as number) + (compiled.flightBerthMs[flight] as number);
      hullNext[flight] = next;
      // A plan that sends a hull off before it is back is a finding of its own; here it is no reason for a delay.
      const turnsRound = turnaroundMs.get(classOf.get(rowOf(flight)?.craftId ?? "") ?? "") ?? 0;
      hullRoomMs[flight] = Math.max(0, Math.floor((compiled.flightDepartAt[next] as number) - endsAt - turnsRound));
    });
  const classes = [...byClass.keys()].toSorted();
  const classStart = [0];
  for (const id of classes) classStart.push((classStart.at(-1) ?? 0) + (byClass.get(id)?.length ?? 0));
  return {
    departAt: compiled.flightDepartAt,
    classStart: new Int32Array(classStart),
    order: new Int32Array(classes.flatMap((id) => byClass.get(id) ?? [])),
    hullNext,
    hullRoomMs,
    isDeparted: new Uint8Array(compiled.flightIds.map((_, index) => (rowOf(index)?.status === "departed" ? 1 : 0))),
    classHasChains: new Uint8Array(
      classes.map((id) => ((byClass.get(id) ?? []).some((index) => (hullNext[index] as number) >= 0) ? 1 : 0)),
    ),
  };
};

/** Compiles a job. The same job, with rows in any order, gives the same model. */
export const riskModel = (job: RiskJob): RiskModel => {
  const { plan, seed } = job;
  const inputs = inputsInForce(plan, job.readings);
  const taken = takenBy(job);
  const compiled = compile(plan);
  const coolers = coolerModels(plan, compiled, inputs, taken);
  const flightRows = new Map(plan.flights.map((row) => [row.id, row]));
  const sortieRows = new Map(plan.sorties.map((row) => [row.id, row]));
  const classOf = new Map(plan.craft.map((row) => [row.id, row.classId]));
  const dropped = new Set(job.variant.droppedFlightIds ?? []);
  const isDropped = new Uint8Array(compiled.flightIds.map((id) => (dropped.has(id) ? 1 : 0)));
  const trialPlaces = new Map<string, number>();
  const trials: TrialModel[] = [];

  const lossOf = (flightId: string, key: string): LossModel => {
    const { inputId, law, sharedKey } = inputs.lawOf("flight loss", flightId);
    if (law.kind === "none" || taken(inputId) === "as planned") return { probability: 0, trial: -1 };
    const mean = law.kind === "probability" ? law.probability : (law.trials - law.successes + 1) / (law.trials + 2);
    // The median of "lost or not" is the likelier of the two.
    if (taken(inputId) === "at its median") return { probability: mean > 0.5 ? 1 : 0, trial: -1 };
    if (law.kind === "probability") return { probability: mean, trial: -1 };
    // One draw for all that the input is stated of, the same in every plan case.
    const shared = sharedKey === flightId ? `flight/${key}` : sharedKey;
    const known = trialPlaces.get(inputId);
    const trial = known ?? trials.length;
    if (known === undefined) {
      trialPlaces.set(inputId, trial);
      trials.push({ key: keyHash(STREAM.lossTrials, shared), successes: law.successes, trials: law.trials });
    }
    return { probability: mean, trial };
  };
  const factorOf = (
    quantity: "transfer loss" | "sortie demand" | "boil-off",
    subjectId: string,
    kind: number,
    key: string,
  ): SpreadModel => {
    const { inputId, law } = inputs.lawOf(quantity, subjectId);
    return {
      key: keyHash(kind, key),
      sigma: law.kind === "none" ? 0 : sigmaOf(law.sigma, taken(inputId)),
    };
  };
  const levelOf = (tankId: string, maximumKg: number): SpreadModel => {
    const { inputId, law } = inputs.lawOf("opening level", tankId);
    const sigma = law.kind === "none" ? 0 : law.kind === "mass" ? law.sigmaKg : law.sigma * maximumKg;
    return { key: keyHash(STREAM.level, tankId), sigma: sigmaOf(sigma, taken(inputId)) };
  };

  return {
    seed,
    snapshot: plan,
    inputs,
    plan: compiled,
    flights: compiled.flightIds.map((id, index) => {
      const row = flightRows.get(id);
      const key = row?.key ?? id;
      const leadDays = ((compiled.flightDepartAt[index] as number) - plan.asOfAt) / DAY_MS;
      const slip = inputs.lawOf("flight slip", id);
      const stand = inputs.lawOf("grounding", classOf.get(row?.craftId ?? "") ?? "");
      // What has departed slips no more.
      const law = row?.status === "departed" ? ({ kind: "none" } as const) : slip.law;
      return {
        key: keyHash(STREAM.flight, key),
        standKey: keyHash(STREAM.grounding, key),
        slip: slipSampler(law, leadDays, taken(slip.inputId)),
        stand: slipSampler(stand.law, leadDays, taken(stand.inputId)),
        loss: lossOf(id, key),
        isDropped: isDropped[index] === 1,
        transfer: factorOf("transfer loss", id, STREAM.transfer, key),
      };
    }),
    trials,
    departures: departurePlan(plan, compiled, isDropped),
    sorties: compiled.sortieIds.map((id, index) => {
      const row = sortieRows.get(id);
      const key = row?.key ?? id;
      const leadDays = ((compiled.sortieLoadAt[index] as number) - plan.asOfAt) / DAY_MS;
      const slip = inputs.lawOf("sortie slip", id);
      return {
        key: keyHash(STREAM.sortie, key),
        slip: slipSampler(
          compiled.sortieIsOut[index] === 1 ? { kind: "none" } : slip.law,
          leadDays,
          taken(slip.inputId),
        ),
        demand: factorOf("sortie demand", id, STREAM.demand, key),
        windows: compiled.sortieWindows[index] ?? null,
        writtenAt: row?.loadAt ?? (compiled.sortieLoadAt[index] as number),
      };
    }),
    tanks: compiled.tankIds.map((id, tank) => {
      const isAtDepot = (compiled.tankPool[tank] as number) >= 0;
      return {
        boilOff: isAtDepot ? factorOf("boil-off", id, STREAM.boilOff, id) : { key: 0, sigma: 0 },
        level: isAtDepot ? levelOf(id, compiled.tankMaximumKg[tank] as number) : { key: 0, sigma: 0 },
      };
    }),
    coolers,
    bandsAt: Float64Array.from(job.bandsAt),
  };
};
