/** The linear relaxation of a resupply problem with whole flights, given to the linear solver alone. */
import loadHighs from "highs";
import { relaxedProgramme } from "../../app/resupply/completion-bound.ts";
import { limitRows } from "../../app/resupply/limit-rows.ts";
import type { Problem } from "../../app/resupply/problem.ts";
import { prepare } from "../../app/resupply/search.ts";

export interface SolvedAlone {
  readonly status: "optimal" | "infeasible" | "open";
  /** The best found; not finite where there is none. */
  readonly objective: number;
}

/** Status codes of HiGHS. */
const OPTIMAL = 7;
const INFEASIBLE = 8;

/** Loads the solver once; what it gives solves to a gap of nothing, for so many seconds at most. */
export const loadSolverAlone = async (): Promise<(problem: Problem, seconds: number) => SolvedAlone> => {
  const highs = await loadHighs();
  return (problem, seconds) => {
    const { candidates, relaxation } = prepare(problem);
    if (relaxation === null) return { status: "infeasible", objective: Infinity };
    const objective = { cost: Float64Array.from(problem.lanes, ({ cost }) => cost), endValue: 0 } as const;
    const programme = relaxedProgramme(candidates, relaxation, objective, limitRows(candidates));
    const flights = [...candidates.free.keys()].filter((cell) => (candidates.free[cell] ?? 0) > 0).length;
    const numCols = programme.cost.length;
    const numRows = programme.rowLower.length;
    const model = highs.createModel({
      numCols,
      numRows,
      offset: programme.offset,
      colCost: programme.cost,
      colLower: programme.lower,
      colUpper: programme.upper,
      rowLower: programme.rowLower,
      rowUpper: programme.rowUpper,
      matrix: {
        format: "csr",
        numRows,
        numCols,
        starts: programme.starts,
        indices: programme.columns,
        values: programme.values,
      },
      integrality: Int32Array.from({ length: numCols }, (_, column) => (column < flights ? 1 : 0)),
    });
    try {
      model.options.set({ output_flag: false, time_limit: seconds, mip_rel_gap: 0 });
      model.run();
      const status = model.getModelStatus();
      return {
        status: status === OPTIMAL ? "optimal" : status === INFEASIBLE ? "infeasible" : "open",
        objective: model.getObjectiveValue(),
      };
    } finally {
      model.dispose();
    }
  };
};
