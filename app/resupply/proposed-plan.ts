/** The plan as it would be with a proposal taken: what is added, and without what is left out. */
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Entity } from "../entity/entities.ts";
import type { ResupplyAnswer, SortieMoved } from "./answer.ts";
import { withSortiesMoved } from "./sorties-moved.ts";

/** What a proposal changes, in the form in which it is taken. */
export interface Proposal {
  readonly added: readonly Entity<"flight">[];
  /** Hulls that the added flights fly and the ledger does not have. */
  readonly craft: readonly Entity<"craft">[];
  readonly leftOutIds: readonly string[];
  /** Sorties at other dates. */
  readonly sortiesMoved?: readonly SortieMoved[] | undefined;
}

export const proposalOf = ({
  changes,
  craft,
  sortiesMoved,
}: Pick<ResupplyAnswer, "changes" | "craft" | "sortiesMoved">): Proposal => ({
  sortiesMoved,
  added: changes.filter(({ kind }) => kind === "added").map(({ flight }) => flight),
  craft,
  leftOutIds: changes.filter(({ kind }) => kind === "left out").map(({ flight }) => flight.id),
});

/** Does not touch the plan given. */
export const proposedPlan = (
  plan: PlanSnapshot,
  { added, craft, leftOutIds, sortiesMoved = [] }: Proposal,
): PlanSnapshot => ({
  ...withSortiesMoved(plan, sortiesMoved),
  craft: [...plan.craft, ...craft],
  flights: [...plan.flights.filter(({ id }) => !leftOutIds.includes(id)), ...added],
});
