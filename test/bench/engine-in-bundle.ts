/** What the bench of the engine runs, to be bundled as it ships: the engine, the older one kept beside it, the bare kernel. */
export { compile } from "../../app/forecast/compile.ts";
export { createEngine } from "../../app/forecast/propagate.ts";
export { createEngine as createOracle } from "../oracle/propagate.ts";
export { createYardstick } from "./yardstick.ts";
