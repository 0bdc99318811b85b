/** The end of an exhaustive switch: a new kind does not compile until every switch knows it. */
import { PlanningError } from "./failure.ts";

/** Where the compiler has seen to it that no case is left. Throws "defect": data of a kind that this program does not know. */
export const missingCase = (value: never): never => {
  throw new PlanningError("defect", `A kind that this program does not know: ${JSON.stringify(value)}.`);
};
