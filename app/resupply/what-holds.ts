/** The search for a plan that holds every sortie, or where none does, one that holds all that can be held. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Working } from "../work/working.ts";
import type { ResupplyBracket, Unheld } from "./answer.ts";
import type { ResupplyAsked } from "./asked.ts";
import { hasTransfers } from "./label-step.ts";
import type { SolveLinear } from "./linear.ts";
import { type MadeProblem, makeProblem } from "./make-problem.ts";
import { type Found, type Prepared, prepare, search } from "./search.ts";
import { unheldWithAll } from "./unheld.ts";

const MAX_LABELS = 4_000_000;
const MAX_ROUNDS = 10;
const MAX_LEFT_OUT = 12;

/** A bound as it is told: null where it is infinite. */
export const outward = (value: number): number | null => (value === Infinity ? null : value);

/** Search with fewer and fewer sorties, until something holds. */
export const searchWhatHolds = (
  plan: PlanSnapshot,
  asked: ResupplyAsked,
  solve: SolveLinear,
  working: Working<ResupplyBracket>,
): { made: MadeProblem; prepared: Prepared; found: Found; unheld: readonly Unheld[] } => {
  let unheld: readonly Unheld[] = [];
  for (let tries = 0; ; tries += 1) {
    const left = new Set(unheld.map(({ sortieId }) => sortieId));
    const made = makeProblem({ ...plan, sorties: plan.sorties.filter(({ id }) => !left.has(id)) }, asked);
    const prepared = prepare(made.problem);
    const found = search(prepared, {
      solve,
      endValue: 0,
      mostRounds: MAX_ROUNDS,
      mostLabels: MAX_LABELS,
      shouldStop: () => working.shouldStop(),
      onBracket: ({ lower, upper }) =>
        working.tell({
          share: null,
          words: "Looking for the plan, and for proof",
          partial: { lower: outward(lower), upper: outward(upper) },
        }),
    });
    const { noPlan } = found;
    if (found.choice !== null || noPlan === null || tries >= MAX_LEFT_OUT) return { made, prepared, found, unheld };
    // All that may fly is not the most there can be where flights draw at depots.
    const first = tries === 0 && !hasTransfers(prepared.candidates) ? unheldWithAll(prepared.candidates) : [];
    if (first.length > 0) {
      unheld = first;
      continue;
    }
    // All could be held one by one, but not within the limits: the first that fails is left out.
    const { compiled, problem } = prepared.candidates;
    const window = noPlan.kind === "limits" ? (noPlan.window ?? 0) : -1;
    const fromAt = problem.instants[window] ?? plan.asOfAt;
    const sortie =
      noPlan.kind === "lander away" || noPlan.kind === "maximum fill"
        ? noPlan.sortie
        : compiled.sortieIds.findIndex(
            (_, n) => compiled.sortieIsOut[n] === 0 && (compiled.sortieLoadAt[n] ?? 0) >= fromAt,
          );
    const sortieId = compiled.sortieIds[sortie];
    if (sortieId === undefined) return { made, prepared, found, unheld };
    unheld = [...unheld, { sortieId, propellantId: null, missingKg: 0, why: "flights" }];
  }
};
