/** Loads the linear solver: HiGHS, compiled to WebAssembly. */
import loadHighs from "highs";
import type { LinearAnswer, SolveLinear } from "../../app/resupply/linear.ts";

/** Status codes of HiGHS. */
const OPTIMAL = 7;
const INFEASIBLE = 8;

const wordOf = (status: number): LinearAnswer["status"] =>
  status === OPTIMAL ? "optimal" : status === INFEASIBLE ? "infeasible" : "other";

/** Loads once; each call of what it gives solves one programme from the beginning, in this thread. */
export const loadLinearSolver = async (): Promise<SolveLinear> => {
  const highs = await loadHighs();
  return (programme) => {
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
    });
    try {
      // To simplify these chains of balances beforehand costs more than it saves: twice the time, cold as warm.
      model.options.set({ output_flag: false, presolve: "off", dual_feasibility_tolerance: 1e-9 });
      model.run();
      const status = wordOf(model.getModelStatus());
      // Without a solution there are no prices, and no prices bound nothing: still true, only of no use.
      if (status !== "optimal") return { status, objective: 0, x: new Float64Array(0), duals: new Float64Array(0) };
      const { colValue, rowDual } = model.getSolution();
      return {
        status,
        objective: model.getObjectiveValue(),
        x: Float64Array.from(colValue ?? []),
        duals: Float64Array.from(rowDual ?? []),
      };
    } finally {
      model.dispose();
    }
  };
};
