/** A month's losses by cause, stacked: what was lost stands on the line, what was found again hangs below it. */
import { type LossCause, lossCauses } from "./statement.ts";
import type { StatementSums } from "../ledger/statement-sums.ts";

export interface StackPiece {
  readonly cause: LossCause;
  /** Its lower and upper edge, kg; lowKg ≤ highKg. */
  readonly lowKg: number;
  readonly highKg: number;
}

/** In the order of the causes, from the line outwards; a cause with nothing is left out. */
export const causeStack = (month: Pick<StatementSums, LossCause>): readonly StackPiece[] => {
  let up = 0;
  let down = 0;
  return lossCauses.flatMap((cause) => {
    const kg = month[cause] / 1000;
    if (kg === 0) return [];
    if (kg > 0) up += kg;
    else down += kg;
    return [kg > 0 ? { cause, lowKg: up - kg, highKg: up } : { cause, lowKg: down, highKg: down - kg }];
  });
};
