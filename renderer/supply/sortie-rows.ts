/** The supply check as rows: one a sortie, and one a sortie and propellant. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { SortieSupply, SupplyGlance, SupplyLine, SupplyAnswer } from "../../app/supply/answer.ts";
import { tightestSlack } from "../../app/supply/tightest-slack.ts";
import { nameIn } from "../../app/words/named.ts";

export interface SortieRow {
  readonly supply: SortieSupply;
  readonly limiting: string;
  /** The smallest slack of any flight before it, days; "any": no flight's slip matters; null: not worked out yet. */
  readonly slackDays: number | "any" | null;
  /** Whose slack that is. */
  readonly slackFlight: string;
  /** null: not worked out yet. */
  readonly hinges: readonly { readonly id: string; readonly name: string }[] | null;
  /** The sum over propellants, kg. */
  readonly missingKg: number;
}

export interface LineRow {
  readonly sortie: SortieSupply;
  readonly line: SupplyLine;
  readonly isLimiting: boolean;
}

const byTime = (a: SortieSupply, b: SortieSupply): number => a.plannedAt - b.plannedAt;

export const sortieRows = (
  plan: PlanSnapshot,
  glance: SupplyGlance,
  answer: SupplyAnswer | null,
): readonly SortieRow[] => {
  const flightName = (id: string): string => nameIn(plan.flights, id);
  return glance.sorties.toSorted(byTime).map((supply) => {
    const tightest = tightestSlack(answer, supply.sortieId);
    return {
      supply,
      limiting: plan.propellants.find(({ id }) => id === supply.limitingPropellantId)?.name ?? "",
      slackDays: answer === null ? null : (tightest?.slackDays ?? "any"),
      slackFlight: tightest === null ? "" : flightName(tightest.flightId),
      hinges:
        answer === null
          ? null
          : answer.hinges
              .filter(({ sortieId }) => sortieId === supply.sortieId)
              .map(({ flightId }) => ({ id: flightId, name: flightName(flightId) })),
      missingKg: supply.lines.reduce((sum, { missingKg }) => sum + missingKg, 0),
    };
  });
};

export const lineRows = (glance: SupplyGlance): readonly LineRow[] =>
  glance.sorties
    .toSorted(byTime)
    .flatMap((sortie) =>
      sortie.lines.map((line) => ({ sortie, line, isLimiting: line.propellantId === sortie.limitingPropellantId })),
    );
