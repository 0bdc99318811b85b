/** The loss statement: opening + received − drawn − boil-off − handover loss − vented − unaccounted = closing, to the gram. */
import { PlanningError } from "../ground/failure.ts";
import type { StatementSums } from "../ledger/statement-sums.ts";

/** What the lines of a statement lose: the parts of `lost`, in the order in which they are shown. */
export const lossCauses = ["boilOffGrams", "handoverLossGrams", "ventedGrams", "unaccountedGrams"] as const;
export type LossCause = (typeof lossCauses)[number];

export const lossCauseName: { readonly [C in LossCause]: string } = {
  boilOffGrams: "boil-off",
  handoverLossGrams: "handover loss",
  ventedGrams: "vented",
  unaccountedGrams: "unaccounted",
};

/** One depot and propellant: its periods in order, and all of them in one line. */
export interface Statement {
  readonly depotId: string;
  readonly propellantId: string;
  readonly lines: readonly StatementSums[];
  readonly total: StatementSums;
}

/** By how much a line does not add up, grams; 0 in sound books. */
export const imbalance = (line: StatementSums): number =>
  line.openingGrams +
  line.receivedGrams -
  line.drawnGrams -
  line.boilOffGrams -
  line.handoverLossGrams -
  line.ventedGrams -
  line.unaccountedGrams -
  line.closingGrams;

const totalOf = (lines: readonly [StatementSums, ...StatementSums[]]): StatementSums => {
  const sum = (pick: (line: StatementSums) => number): number => lines.reduce((all, line) => all + pick(line), 0);
  const last = lines.at(-1) ?? lines[0];
  return {
    ...lines[0],
    untilAt: last.untilAt,
    receivedGrams: sum((line) => line.receivedGrams),
    drawnGrams: sum((line) => line.drawnGrams),
    boilOffGrams: sum((line) => line.boilOffGrams),
    handoverLossGrams: sum((line) => line.handoverLossGrams),
    ventedGrams: sum((line) => line.ventedGrams),
    unaccountedGrams: sum((line) => line.unaccountedGrams),
    closingGrams: last.closingGrams,
  };
};

const refuseBroken = (line: StatementSums): void => {
  const grams = imbalance(line);
  if (grams === 0 && Number.isSafeInteger(line.closingGrams)) return;
  throw new PlanningError(
    "not a ledger",
    `The books of depot ${line.depotId}, propellant ${line.propellantId}, do not add up: ${grams} g are left over. Check the file.`,
  );
};

/**
 * Statements by depot and propellant, periods in order of time. Throws "not a ledger" if any line, or the passage from one
 * line to the next, does not add up to the gram: then the file is damaged.
 */
export const composeStatements = (sums: readonly StatementSums[]): readonly Statement[] => {
  const groups = new Map<string, [StatementSums, ...StatementSums[]]>();
  for (const line of [...sums].sort((a, b) => a.fromAt - b.fromAt)) {
    refuseBroken(line);
    const key = `${line.depotId} ${line.propellantId}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [line]);
    else {
      const before = group.at(-1);
      if (before !== undefined && before.untilAt === line.fromAt && before.closingGrams !== line.openingGrams) {
        throw new PlanningError("not a ledger", `The books of depot ${line.depotId} change between two months.`);
      }
      group.push(line);
    }
  }
  return [...groups.values()].map((lines) => {
    const total = totalOf(lines);
    refuseBroken(total);
    return { depotId: total.depotId, propellantId: total.propellantId, lines, total };
  });
};
