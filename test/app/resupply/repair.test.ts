/** Repairs hold in a forecast of their own; where two changes are said to be least, no single further flight does. */
import { describe, expect, it } from "vitest";
import { compile } from "../../../app/forecast/compile.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { createEngine } from "../../../app/forecast/propagate.ts";
import { type ResupplyAsked, usualAsked } from "../../../app/resupply/asked.ts";
import { PlanningError } from "../../../app/ground/failure.ts";
import { isReplaceable, makeProblem } from "../../../app/resupply/make-problem.ts";
import { isHeld } from "../../../app/resupply/proposal.ts";
import type { RepairAnswer, RepairAsked, RepairTaken } from "../../../app/resupply/repair-answer.ts";
import { repairSentences } from "../../../app/resupply/repair-words.ts";
import { repair } from "../../../app/resupply/repair.ts";
import { prepare } from "../../../app/resupply/search.ts";
import { hullFindings } from "../../../app/supply/hulls.ts";
import { portConflicts } from "../../../app/supply/port-conflicts.ts";
import { loadLinearSolver } from "../../../main/service/linear-solver.ts";
import { demoPlan, shakenProblem, smallProblem } from "./random-problem.ts";
import { atLeast, count, seeds } from "./seeds.ts";

const solve = await loadLinearSolver();
const quiet = { tell: () => undefined, shouldStop: () => false };
const usual: RepairAsked = {
  classes: [],
  arrivals: usualAsked.arrivals,
  isBeforeLoadings: true,
  blackouts: [],
  goal: "supplied",
  untilAt: null,
  mishaps: [],
};
const ask = (plan: PlanSnapshot, mishaps: RepairAsked["mishaps"] = []): RepairAnswer =>
  repair(plan, { ...usual, mishaps }, solve, quiet);

/** The plan that a person gets who takes a way. */
const taken = (plan: PlanSnapshot, { added, craft, leftOutIds, moved }: RepairTaken): PlanSnapshot => {
  const times = new Map(moved.map((row) => [row.flightId, row]));
  return {
    ...plan,
    craft: [...plan.craft, ...craft],
    flights: [
      ...plan.flights
        .filter(({ id }) => !leftOutIds.includes(id))
        .map((row) => {
          const to = times.get(row.id);
          return to === undefined ? row : { ...row, departAt: to.departAt, arriveAt: to.arriveAt };
        }),
      ...added,
    ],
  };
};
const statuses = (plan: PlanSnapshot): readonly string[] => forecast(plan).sorties.map(({ status }) => status);
const overlaps = (plan: PlanSnapshot): number => hullFindings(plan, forecast(plan)).length;
const crowds = (plan: PlanSnapshot): number => portConflicts(plan, forecast(plan)).length;

const tarn = demoPlan("tarn");

describe("a repair", () => {
  it("of the demonstration's short sortie is one change, and holds", () => {
    const answer = ask(tarn);
    expect(answer.standing).toBe("repaired");
    expect(answer.broken.length).toBe(1);
    for (const way of answer.ways) {
      expect(statuses(taken(tarn, way.taken)).every((status) => status === "supplied")).toBe(true);
      expect(way.changes).toBe(way.moved.length + way.added.length);
    }
    expect(answer.ways[0]?.changes).toBe(1);
    expect(repairSentences(tarn, answer).join(" ")).toMatch(
      /^Unrepaired, Sortie 5 lacks .*every sortie is supplied; nothing less does\./,
    );
  });

  it("of the demonstration with Drover 4 lost is three changes, and no two do, as every pair of them run once has shown", () => {
    const lost = tarn.flights.find(({ name }) => name === "Drover 4");
    const answer = ask(tarn, [{ kind: "lost", flightId: lost?.id ?? "" }]);
    expect(answer.ways[0]?.changes).toBe(3);
    expect(answer.leastChanges).toBe(3);
    expect(repairSentences(tarn, answer).at(-1)).toContain(
      "with fewer than 3 changes it is impossible at the dates of arrival looked at",
    );
  });

  it("is not needed where a small slip changes nothing, and moves no flight that has slipped or is firm", () => {
    const beck = demoPlan("beck");
    const first = beck.flights.find(({ status }) => status === "planned");
    expect(ask(beck, [{ kind: "slips", flightId: first?.id ?? "", days: 0.5 }]).standing).toBe("holds");
    const late = ask(beck, [{ kind: "slips", flightId: first?.id ?? "", days: 40 }]);
    for (const { moved } of late.ways)
      for (const { flight } of moved) {
        expect(flight.id).not.toBe(first?.id);
        expect(flight.status).toBe("planned");
      }
  });

  it("counts the later flights of a lost hull as gone, whether the loss is supposed or in the plan", () => {
    const beck = demoPlan("beck");
    const ahead = beck.flights
      .filter(({ status, origin }) => status === "planned" && origin.kind === "source")
      .toSorted((a, b) => a.departAt - b.departAt);
    const [first, ...later] = ahead;
    const hull = first?.craftId ?? "";
    // All of them on one hull: with the first no other flies.
    const single = {
      ...beck,
      flights: beck.flights.map((row) => (ahead.includes(row) ? { ...row, craftId: hull } : row)),
    };
    const lostId = first?.id ?? "";
    const answer = ask(single, [{ kind: "lost", flightId: lostId }]);
    expect([...answer.goneIds].toSorted()).toEqual(later.map(({ id }) => id).toSorted());
    // Counted by the engine on the plan without any of them.
    const bare = { ...single, flights: single.flights.filter((row) => !ahead.some(({ id }) => id === row.id)) };
    const short = forecast(bare).sorties.filter(({ status }) => status !== "supplied");
    expect(answer.broken.map(({ sortieId }) => sortieId).toSorted()).toEqual(
      short.map(({ sortieId }) => sortieId).toSorted(),
    );
    expect(repairSentences(single, answer)[0]).toMatch(/On a hull that is lost then, .* cannot fly\./);
    for (const way of answer.ways) {
      const whole = taken(single, way.taken);
      expect(whole.flights.some(({ id }) => later.some((row) => row.id === id))).toBe(false);
      expect(way.added.every(({ flight }) => flight.craftId !== hull)).toBe(true);
      expect(statuses(whole).every((status) => status === "supplied")).toBe(true);
    }
    const happened = {
      ...single,
      flights: single.flights.map((row) => (row.id === lostId ? { ...row, status: "lost" as const } : row)),
    };
    const { goneIds, broken } = ask(happened);
    expect({ goneIds, broken }).toEqual({ goneIds: answer.goneIds, broken: answer.broken });
  });

  it("says in words which flight cannot slip any more", () => {
    const gone = { ...tarn, flights: tarn.flights.map((row) => ({ ...row, status: "cancelled" as const })) };
    const flightId = tarn.flights[0]?.id ?? "";
    expect(() => ask(gone, [{ kind: "lost", flightId }])).toThrow(/can neither slip nor be lost/);
    expect(() => ask(tarn, [{ kind: "lost", flightId: "nobody" }])).toThrow(/no flight nobody/);
  });

  it("after every loss of the demonstrations holds, keeps the ports, and is least where it says so", () => {
    let repaired = 0;
    const plans = [tarn, demoPlan("beck"), ...[2, 3].map((seed) => shakenProblem(seed, "beck").plan)];
    for (const plan of plans)
      for (const flight of plan.flights) {
        if (flight.status !== "planned" && flight.status !== "firm") continue;
        const answer = ask(plan, [{ kind: "lost", flightId: flight.id }]);
        const gone = new Set([flight.id, ...answer.goneIds]);
        const after = { ...plan, flights: plan.flights.filter(({ id }) => !gone.has(id)) };
        for (const way of answer.ways) {
          repaired += 1;
          const whole = taken(plan, way.taken);
          const run = createEngine(compile(whole)).go();
          expect(run.plan.sortieIds.every((_, sortie) => isHeld(run, sortie, "supplied"))).toBe(true);
          if (crowds(after) === 0) expect(crowds(whole)).toBe(0);
          for (const { flightId, departAt } of way.taken.moved) {
            expect(departAt).toBeGreaterThanOrEqual(plan.asOfAt);
            expect(plan.flights.find(({ id }) => id === flightId)?.status).toBe("planned");
          }
        }
        const [best] = answer.ways;
        if (best === undefined || best.changes < 2 || !best.isProvedLeast) continue;
        // Every single further flight at every instant, by the engine alone.
        const { candidates } = prepare(makeProblem(after, usualAsked).problem);
        const engine = createEngine(candidates.compiled);
        const lost = engine.input.flightIsLost;
        candidates.isCandidate.forEach((is, n) => {
          lost[n] = is;
        });
        candidates.isCandidate.forEach((is, n) => {
          if (is !== 1) return;
          lost[n] = 0;
          const run = engine.go();
          lost[n] = 1;
          expect(run.plan.sortieIds.every((_, sortie) => isHeld(run, sortie, "supplied"))).toBe(false);
        });
      }
    expect(repaired).toBeGreaterThan(5);
  });
});

describe("fewer changes than a repair says are impossible", () => {
  /** Whether some set of at most `most` changes, moves to an instant or further flights, holds everything. */
  const isDoneBy = (plan: PlanSnapshot, arrivals: ResupplyAsked["arrivals"], most: number): boolean => {
    const { problem } = makeProblem(plan, { ...usualAsked, isBeforeLoadings: false, arrivals });
    const { candidates } = prepare({ ...problem, resources: [] });
    const engine = createEngine(candidates.compiled);
    const { flightIsOff, flightSlipMs } = engine.input;
    candidates.isCandidate.forEach((is, n) => {
      flightIsOff[n] = is;
    });
    const changes: { readonly depotId: string; readonly at: number; set(isOn: boolean): void }[] = [];
    candidates.compiled.flightIds.forEach((id, n) => {
      const arriveAt = candidates.compiled.flightArriveAt[n] ?? 0;
      const { depotId } = [...plan.flights, ...candidates.list.map(({ flight }) => flight)].find(
        (row) => row.id === id,
      )!;
      if (candidates.isCandidate[n] === 1)
        changes.push({ depotId, at: arriveAt, set: (isOn) => (flightIsOff[n] = isOn ? 0 : 1) });
      else if (plan.flights.some((row) => row.id === id && isReplaceable(plan, row))) {
        const earliest = plan.asOfAt + arriveAt - (candidates.compiled.flightDepartAt[n] ?? 0);
        for (const at of problem.instants.filter((instant) => instant >= earliest))
          changes.push({ depotId, at, set: (isOn) => (flightSlipMs[n] = isOn ? at - arriveAt : 0) });
      }
    });
    /** Ports take no more at one instant; what else is at the depot is left out of account. */
    const isCrowded = (set: typeof changes): boolean =>
      set.some(({ depotId, at }) => {
        const ports = plan.depots.find(({ id }) => id === depotId)?.ports ?? 0;
        return set.filter((row) => row.depotId === depotId && row.at === at).length > ports;
      });
    const tried = (from: number, left: number, chosen: typeof changes): boolean => {
      if (isCrowded(chosen)) return false;
      const run = engine.go();
      if (run.plan.sortieIds.every((_, sortie) => isHeld(run, sortie, "supplied"))) return true;
      if (left === 0) return false;
      return changes.slice(from).some((change, n) => {
        change.set(true);
        const isDone = tried(from + n + 1, left - 1, [...chosen, change]);
        change.set(false);
        return isDone;
      });
    };
    return tried(0, most, []);
  };
  it("every smaller set of moves and further flights fails by the engine, and mixed ways change as little as said", (context) => {
    let compared = 0;
    let mixed = 0;
    for (const seed of seeds(40, 800)) {
      const { plan: base, instants } = smallProblem(130_000 + seed);
      const plan: PlanSnapshot = {
        ...base,
        // Each on a hull of its own, of the class that may fly.
        craft: [
          ...base.craft,
          ...base.flights.map(({ id, name }) => ({
            id: `hull-${id}`,
            classId: "A",
            name,
            note: "",
            engineChanges: [],
          })),
        ],
        flights: base.flights.map((row) =>
          row.status === "firm" && row.origin.kind === "source"
            ? { ...row, status: "planned" as const, craftId: `hull-${row.id}` }
            : row,
        ),
      };
      const arrivals = { kind: "list" as const, at: [...instants].slice(0, 5) };
      let answer: RepairAnswer;
      try {
        answer = repair(plan, { ...usual, arrivals, isBeforeLoadings: false }, solve, quiet);
      } catch (error) {
        if (error instanceof PlanningError && error.code === "refused") continue;
        throw error;
      }
      const [best] = answer.ways;
      if (best === undefined) continue;
      if (answer.ways.some(({ moved, added }) => moved.length > 0 && added.length > 0)) mixed += 1;
      for (const way of answer.ways) {
        const whole = taken(plan, way.taken);
        expect(
          statuses(whole).every((status) => status === "supplied"),
          `${seed}`,
        ).toBe(true);
        expect(crowds(whole), `${seed}: ports`).toBeLessThanOrEqual(crowds(plan));
        expect(overlaps(whole), `${seed}: hulls`).toBeLessThanOrEqual(overlaps(plan));
      }
      if (answer.leastChanges < 2) continue;
      compared += 1;
      expect(answer.leastChanges).toBeLessThanOrEqual(best.changes);
      expect(isDoneBy(plan, arrivals, answer.leastChanges - 1), `${seed}`).toBe(false);
    }
    count(context, "bounds of changes against every smaller set", compared);
    expect(compared).toBeGreaterThanOrEqual(atLeast(3));
    expect(mixed).toBeGreaterThanOrEqual(atLeast(1));
  });
});
