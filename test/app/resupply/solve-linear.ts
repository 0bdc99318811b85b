/** The solver as the tests have it: the same that the service loads. */
import { loadLinearSolver } from "../../../main/service/work/linear-solver.ts";

export const solve = await loadLinearSolver();
