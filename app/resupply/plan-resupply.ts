/** The whole question: the proposal, what is proved of it, and where nothing holds, what is in the way and what would cure it. */
import type { PlanSnapshot } from "../entity/plan.ts";
import { createEngine } from "../forecast/propagate.ts";
import { compile } from "../forecast/compile.ts";
import type { Entity } from "../entity/entities.ts";
import type { Working } from "../work/working.ts";
import type { Binding, Cure, FlightChange, ResupplyAnswer, ResupplyBracket, Unheld } from "./answer.ts";
import type { ResupplyAsked } from "./asked.ts";
import { bindingOf } from "./binding.ts";
import { contradictionsOf } from "./contradictions.ts";
import { curesOf } from "./cures.ts";
import { fewestChanges } from "./fewest-changes.ts";
import { leastLoss } from "./least-loss.ts";
import type { SolveLinear } from "./linear.ts";
import { withMargins } from "./margins.ts";
import { classesAsked, isReplaceable, makeProblem } from "./make-problem.ts";
import { crewed, isHeld, lacking, purposes, splitChoice, sumsOf, tightestOf } from "./proposal.ts";
import { moveSorties } from "./move-sorties.ts";
import { type Found, prepare, search } from "./search.ts";
import { withSortiesMoved } from "./sorties-moved.ts";
import { outward, searchWhatHolds } from "./what-holds.ts";

const MAX_LABELS_OF_CURE = 150_000;

/**
 * Throws "refused" in words where the question cannot be asked; a stopped search answers with the best so far. Where
 * sorties may move, their dates are chosen first, and all that is said and proved is of these dates.
 */
export const planResupply = (
  saved: PlanSnapshot,
  asked: ResupplyAsked,
  solve: SolveLinear,
  working: Working<ResupplyBracket>,
): ResupplyAnswer => {
  const sortiesMoved = asked.moveSortiesDays === 0 ? [] : moveSorties(withMargins(saved, asked), asked, solve, working);
  return planForDates(withSortiesMoved(saved, sortiesMoved), saved, asked, solve, working, sortiesMoved);
};

/** `before`: the plan as it stands. */
const planForDates = (
  saved: PlanSnapshot,
  before: PlanSnapshot,
  asked: ResupplyAsked,
  solve: SolveLinear,
  working: Working<ResupplyBracket>,
  sortiesMoved: ResupplyAnswer["sortiesMoved"],
): ResupplyAnswer => {
  const plan = withMargins(saved, asked);
  const { made, prepared, found, unheld } = searchWhatHolds(plan, asked, solve, working);
  const { problem } = made;
  const { goal } = asked;
  const classes = classesAsked(plan, asked);
  const classOfCraft = new Map(plan.craft.map(({ id, classId }) => [id, classId]));
  const priceOf = new Map(plan.craftClasses.map(({ id, costPerFlight }) => [id, costPerFlight]));
  for (const { row, costPerFlight } of classes) priceOf.set(row.id, costPerFlight ?? row.costPerFlight);
  const ofWay = asked.betweenDepots?.costPerFlight ?? null;
  const costOf = (flight: Entity<"flight">): number | null =>
    (flight.origin.kind === "depot" ? ofWay : null) ??
    priceOf.get(classOfCraft.get(flight.craftId) ?? flight.craftId) ??
    null;

  let loss: ResupplyAnswer["loss"] = null;
  let { choice } = found;
  if (choice !== null && asked.least === "loss") {
    working.tell({
      share: null,
      words: "Looking for the least loss",
      partial: { lower: outward(found.lower), upper: outward(found.upper) },
    });
    ({ choice, loss } = leastLoss(prepared, { upper: found.upper, choice }, solve, () => working.shouldStop()));
  }
  if (choice !== null && asked.least !== "loss") {
    working.tell({
      share: null,
      words: "Looking for the fewest changes",
      partial: { lower: outward(found.lower), upper: outward(found.upper) },
    });
    choice = fewestChanges(prepared, choice, solve, () => working.shouldStop());
  }

  const changes: FlightChange[] = [];
  let craft: readonly Entity<"craft">[] = [];
  let proposed: ResupplyAnswer["proposed"] = null;
  let tightest: ResupplyAnswer["tightest"] = null;
  let stillUnheld = unheld;
  if (choice !== null) {
    const { added, kept } = splitChoice(prepared.candidates, choice);
    const hullClass = new Map(prepared.candidates.craft.map(({ id, classId }) => [id, classId]));
    const staying = {
      ...plan,
      flights: plan.flights.filter((row) => problem.plan.flights.includes(row) || kept.includes(row)),
    };
    const crews = crewed(staying, added, ({ craftId }) => hullClass.get(craftId) ?? "", classes);
    ({ craft } = crews);
    for (const row of craft) classOfCraft.set(row.id, row.classId);
    const whole: PlanSnapshot = {
      ...staying,
      craft: [...plan.craft, ...craft],
      flights: [...staying.flights, ...crews.flights],
    };
    // What a person gets is compiled anew and run: the answer rests on this forecast.
    proposed = sumsOf(whole, goal, costOf);
    tightest = tightestOf(whole, goal);
    const isCandidate = (flight: Entity<"flight">): boolean => isReplaceable(plan, flight);
    const shown = [...crews.flights, ...whole.flights.filter(isCandidate)];
    const isFor = purposes(
      whole,
      goal,
      shown.map(({ id }) => id),
    );
    const change =
      (kind: FlightChange["kind"]) =>
      (flight: Entity<"flight">): FlightChange => ({
        kind,
        flight,
        classId: classOfCraft.get(flight.craftId) ?? "",
        isFor: isFor.get(flight.id) ?? null,
      });
    changes.push(
      ...crews.flights.map(change("added")),
      ...staying.flights.filter(isCandidate).map(change("kept")),
      ...plan.flights.filter((row) => !staying.flights.includes(row)).map(change("left out")),
    );
    changes.sort((a, b) => a.flight.arriveAt - b.flight.arriveAt || (a.flight.id < b.flight.id ? -1 : 1));
    stillUnheld = confirmed(whole, asked, unheld);
  }
  const { binds, cures } =
    unheld.length > 0 && !found.isStopped ? cure(plan, asked, unheld, solve, working) : { binds: [], cures: [] };
  return {
    standing: choice === null ? "none" : stillUnheld.length > 0 ? "partly" : "plan",
    measure: asked.least === "cost" ? "cost" : "flights",
    bracket: { lower: outward(found.lower), upper: outward(found.upper) },
    isProved: found.isProved,
    loss,
    isStopped: found.isStopped || working.shouldStop(),
    instants: made.arrivals,
    isBetweenDepots: plan.depots.length < 2 ? null : asked.betweenDepots !== null,
    goal,
    margins: asked.margins,
    chance: null,
    lost: asked.lost,
    changes,
    craft,
    sortiesMoved,
    moveSortiesDays: asked.moveSortiesDays,
    present: sumsOf(withMargins(before, asked), goal, costOf),
    proposed,
    tightest,
    unheld: stillUnheld,
    contradictions: contradictionsOf(plan),
    binds,
    cures,
  };
};

/** What the forecast of the proposal itself does not hold, with what is short there where it was not known. */
const confirmed = (whole: PlanSnapshot, asked: ResupplyAsked, unheld: readonly Unheld[]): readonly Unheld[] => {
  const run = createEngine(compile(whole)).go();
  return run.plan.sortieIds.flatMap((sortieId, sortie): readonly Unheld[] => {
    const isAsked = asked.untilAt === null || (run.plan.sortieLoadAt[sortie] ?? 0) <= asked.untilAt;
    if (!isAsked || isHeld(run, sortie, asked.goal)) return [];
    const lack = lacking(run, sortie, asked.goal);
    const known = unheld.find((row) => row.sortieId === sortieId);
    if (known !== undefined && (known.missingKg > 0 || known.why === "lander away")) return [known];
    return [
      {
        sortieId,
        propellantId: lack?.propellantId ?? null,
        missingKg: lack?.missingKg ?? 0,
        why: lack === null ? "lander away" : "flights",
      },
    ];
  });
};

const cure = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  unheld: readonly Unheld[],
  solve: SolveLinear,
  working: Working<ResupplyBracket>,
): { binds: readonly Binding[]; cures: readonly Cure[] } => {
  const solved = (other: PlanSnapshot, of: ResupplyAsked, isPlanEnough: boolean): Found | null => {
    working.tell({ share: null, words: "Looking for what would cure it" });
    if (working.shouldStop()) return null;
    return search(prepare(makeProblem(other, of).problem), {
      solve,
      endValue: 0,
      isPlanEnough,
      mostRounds: 2,
      mostLabels: MAX_LABELS_OF_CURE,
      shouldStop: () => working.shouldStop(),
    });
  };
  const canHold = (other: PlanSnapshot, of: ResupplyAsked): boolean =>
    (solved(other, of, true)?.choice ?? null) !== null;
  const cures = [...curesOf(plan, asked, unheld, canHold)];
  // Without the limit on the whole, what would be needed of it.
  if (asked.mostFlights !== null) {
    const free = solved(plan, { ...asked, mostFlights: null, least: "flights" }, false);
    if (free?.choice != null) cures.push({ kind: "flights", most: free.upper });
  }
  if (asked.budget !== null) {
    const free = solved(plan, { ...asked, budget: null, least: "cost" }, false);
    if (free?.choice != null) cures.push({ kind: "budget", most: free.upper });
  }
  return { binds: bindingOf(plan, asked, unheld, canHold), cures };
};
