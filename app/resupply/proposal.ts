/** A choice made into a plan that a person can take: real hulls, names, what each flight is for, what it comes to. */
import { compile } from "../forecast/compile.ts";
import { expectedTimes, isAhead } from "../forecast/compile-flights.ts";
import { forecast } from "../forecast/forecast.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { createEngine } from "../forecast/propagate.ts";
import { needMarginKg, needRequiredKg, needAvailableKg } from "../forecast/read-run.ts";
import { STATUS } from "../forecast/run.ts";
import type { Run } from "../forecast/run-state.ts";
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import type { FlightChange, PlanSums, ResupplyAnswer } from "./answer.ts";
import { type Candidates, type Choice, chosenFlights } from "./candidates.ts";
import type { AskedClass } from "./make-problem.ts";

type Goal = ResupplyAnswer["goal"];

/** Whether a sortie of a run is held. */
export const isHeld = (run: Run, sortie: number, goal: Goal): boolean =>
  run.plan.sortieIsOut[sortie] === 1 ||
  (run.sortieStatus[sortie] ?? 0) <= (goal === "supplied" ? STATUS.supplied : STATUS.thin);

/** What a sortie lacks for the goal, worst propellant first; null: nothing. kg */
export const lacking = (
  run: Run,
  sortie: number,
  goal: Goal,
): { propellantId: string; missingKg: number; need: number } | null => {
  const { sortieLineStart, needPropellantIds } = run.plan;
  let worst: { propellantId: string; missingKg: number; need: number } | null = null;
  for (let need = sortieLineStart[sortie] ?? 0; need < (sortieLineStart[sortie + 1] ?? 0); need += 1) {
    const missingKg =
      goal === "supplied" ? -needMarginKg(run, need) : needRequiredKg(run, need) - needAvailableKg(run, need);
    if (missingKg > 1e-6 && (worst === null || missingKg > worst.missingKg))
      worst = { propellantId: needPropellantIds[need] ?? "", missingKg, need };
  }
  return worst;
};

/** Gives added flights hulls of the plan that are free, the others a further hull of the class, and names of their own. */
export const crewed = (
  plan: PlanSnapshot,
  flights: readonly Entity<"flight">[],
  classOf: (flight: Entity<"flight">) => string,
  classes: readonly AskedClass[],
): { flights: readonly Entity<"flight">[]; craft: readonly Entity<"craft">[] } => {
  const busy = new Map<string, (readonly [number, number])[]>();
  const turnaroundOf = (classId: string): number =>
    (classes.find(({ row }) => row.id === classId)?.turnaroundDays ?? 0) * DAY_MS;
  const hold = (craftId: string, from: number, until: number): void => {
    busy.set(craftId, [...(busy.get(craftId) ?? []), [from, until]]);
  };
  const classOfCraft = new Map(plan.craft.map(({ id, classId }) => [id, classId]));
  for (const flight of plan.flights)
    if (isAhead(flight) || flight.status === "arrived") {
      const { departAt, arriveAt } = flight.status === "arrived" ? flight : expectedTimes(flight, plan.asOfAt);
      const turnaround = turnaroundOf(classOfCraft.get(flight.craftId) ?? "");
      hold(flight.craftId, departAt, arriveAt + flight.berthDays * DAY_MS + turnaround);
    }
  const isLost = new Set(plan.flights.filter(({ status }) => status === "lost").map(({ craftId }) => craftId));
  const craft: Entity<"craft">[] = [];
  const numbers = new Map<string, number>();
  const taken = new Set([...plan.flights.map(({ id }) => id), ...plan.craft.map(({ id }) => id)]);
  const names = new Set([...plan.flights, ...plan.craft].map(({ name }) => name));
  const fresh = (wanted: string): string => {
    let id = wanted;
    while (taken.has(id)) id += "-";
    taken.add(id);
    return id;
  };
  const named = (stem: string, key: string): string => {
    for (;;) {
      const next = (numbers.get(key) ?? 0) + 1;
      numbers.set(key, next);
      const name = `${stem} ${next}`;
      if (names.has(name)) continue;
      names.add(name);
      return name;
    }
  };
  const made = flights.map((flight) => {
    const classId = classOf(flight);
    const until = flight.arriveAt + flight.berthDays * DAY_MS + turnaroundOf(classId);
    const isFree = ({ id }: { id: string }): boolean =>
      !(busy.get(id) ?? []).some(([from, end]) => from < until && end > flight.departAt);
    let hull = [...plan.craft, ...craft].find((row) => row.classId === classId && !isLost.has(row.id) && isFree(row));
    if (hull === undefined) {
      const name = named(`${flight.name}, further hull`, `hull ${classId}`);
      hull = { id: fresh(`further-${classId}-${craft.length + 1}`), classId, name, note: "", engineChanges: [] };
      craft.push(hull);
    }
    hold(hull.id, flight.departAt, until);
    const id = fresh(flight.id);
    return { ...flight, id, key: id, craftId: hull.id, name: named(`${flight.name}, further`, classId) };
  });
  return { flights: made, craft };
};

/** What a plan comes to. `costOf`: of one flight; null: not stated. */
export const sumsOf = (
  plan: PlanSnapshot,
  goal: Goal,
  costOf: (flight: Entity<"flight">) => number | null,
): PlanSums => {
  const seen = forecast(plan);
  const run = createEngine(seen.compiled).go();
  const ahead = plan.flights.filter(isAhead);
  const costs = ahead.filter(({ status }) => status !== "departed").map(costOf);
  const vented = seen.flights.flatMap(({ lines }) => lines.map(({ ventedKg }) => ventedKg));
  const open = run.plan.sortieIds.flatMap((_, sortie) => (run.plan.sortieIsOut[sortie] === 1 ? [] : [sortie]));
  return {
    flights: ahead.length,
    cost: costs.every((cost) => cost !== null) ? costs.reduce((sum: number, cost) => sum + (cost ?? 0), 0) : null,
    lostKg: [...seen.losses.map(({ lostKg }) => lostKg), ...vented].reduce((sum, kg) => sum + kg, 0),
    held: open.filter((sortie) => isHeld(run, sortie, goal)).length,
    sorties: open.length,
  };
};

/** For each flight the first sortie that is held with it and not without. */
export const purposes = (
  plan: PlanSnapshot,
  goal: Goal,
  flightIds: readonly string[],
): ReadonlyMap<string, FlightChange["isFor"]> => {
  const engine = createEngine(compile(plan));
  const base = engine.go();
  const held = base.plan.sortieIds.map((_, sortie) => isHeld(base, sortie, goal));
  const found = new Map<string, FlightChange["isFor"]>();
  for (const id of flightIds) {
    const flight = engine.run.plan.flightIds.indexOf(id);
    if (flight < 0) continue;
    engine.input.flightIsOff[flight] = 1;
    const run = engine.go();
    const sortie = run.plan.sortieIds.findIndex((_, index) => held[index] === true && !isHeld(run, index, goal));
    const lack = sortie < 0 ? null : lacking(run, sortie, goal);
    engine.input.flightIsOff[flight] = 0;
    found.set(
      id,
      lack === null
        ? null
        : { sortieId: run.plan.sortieIds[sortie] ?? "", propellantId: lack.propellantId, missingKg: lack.missingKg },
    );
  }
  return found;
};

/** The sortie and propellant with the least margin over the reserve, relative to what is required. */
export const tightestOf = (plan: PlanSnapshot, goal: Goal): ResupplyAnswer["tightest"] => {
  const run = createEngine(compile(plan)).go();
  let tightest: ResupplyAnswer["tightest"] = null;
  let least = Infinity;
  run.plan.sortieIds.forEach((sortieId, sortie) => {
    if (run.plan.sortieIsOut[sortie] === 1 || !isHeld(run, sortie, goal)) return;
    for (
      let need = run.plan.sortieLineStart[sortie] ?? 0;
      need < (run.plan.sortieLineStart[sortie + 1] ?? 0);
      need += 1
    ) {
      const required = needRequiredKg(run, need);
      const marginKg = goal === "supplied" ? needMarginKg(run, need) : needAvailableKg(run, need) - required;
      if (required <= 0 || marginKg / required >= least) continue;
      least = marginKg / required;
      tightest = { sortieId, propellantId: run.plan.needPropellantIds[need] ?? "", marginKg };
    }
  });
  return tightest;
};

/** The flights of a choice, those of class lanes apart from planned ones that stay. */
export const splitChoice = (candidates: Candidates, choice: Choice) => {
  const planned = new Set(candidates.problem.lanes.flatMap((lane) => (lane.planned === null ? [] : [lane.planned.id])));
  const flights = chosenFlights(candidates, choice);
  return { added: flights.filter(({ id }) => !planned.has(id)), kept: flights.filter(({ id }) => planned.has(id)) };
};
