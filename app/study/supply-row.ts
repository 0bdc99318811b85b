/** What the exact forecast says of one point, as one row: how many sorties are supplied, the least margin, and each. */
import { needMarginKg } from "../forecast/read-run.ts";
import { statusWord } from "../forecast/read-sorties.ts";
import { OUTCOME } from "../forecast/run.ts";
import type { Run } from "../forecast/run-state.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import { type Cell, type Column, sortieNames } from "./columns.ts";

/** Least margin over the reserve of a sortie's needs, kg; null: nothing was looked at, for its lander was away. */
export const sortieMargin = (run: Run, sortie: number): number | null => {
  if (run.sortieLanderAway[sortie] === 1) return null;
  let least = Infinity;
  for (let need = run.plan.sortieLineStart[sortie] ?? 0; need < (run.plan.sortieLineStart[sortie + 1] ?? 0); need += 1)
    least = Math.min(least, needMarginKg(run, need));
  return least === Infinity ? null : least;
};

export const supplyColumns = (plan: PlanSnapshot, sortieIds: readonly string[], each: boolean): readonly Column[] => {
  const names = sortieNames(plan, sortieIds);
  return [
    { name: "sorties", unit: "" },
    { name: "supplied", unit: "" },
    { name: "thin", unit: "" },
    { name: "short", unit: "" },
    { name: "fly", unit: "" },
    { name: "least margin", unit: "kg" },
    ...(each
      ? sortieIds.flatMap((id) => [
          { name: `${names.get(id) ?? id}: status`, unit: "", sortieId: id },
          { name: `${names.get(id) ?? id}: margin`, unit: "kg", sortieId: id },
        ])
      : []),
  ];
};

/** `sortieIds`: of the plan that the study is of, in the order of the columns. */
export const supplyRow = (run: Run, sortieIds: readonly string[], each: boolean): readonly Cell[] => {
  const { plan } = run;
  const counts = [0, 0, 0];
  let fly = 0;
  let least: number | null = null;
  const seen = new Map<string, readonly [Cell, Cell]>();
  for (let sortie = 0; sortie < plan.sortieIds.length; sortie += 1) {
    if (plan.sortieIsOut[sortie] === 1) continue;
    const status = run.sortieStatus[sortie] ?? 0;
    const outcome = run.sortieOutcome[sortie];
    counts[status] = (counts[status] ?? 0) + 1;
    if (outcome === OUTCOME.flies || outcome === OUTCOME.waitsAndFlies) fly += 1;
    const margin = sortieMargin(run, sortie);
    if (margin !== null) least = least === null ? margin : Math.min(least, margin);
    if (each) seen.set(plan.sortieIds[sortie] ?? "", [statusWord(status), margin]);
  }
  const cells: Cell[] = [counts.reduce((sum, n) => sum + n, 0), ...counts, fly, least];
  if (each) for (const id of sortieIds) cells.push(...(seen.get(id) ?? [null, null]));
  return cells;
};
