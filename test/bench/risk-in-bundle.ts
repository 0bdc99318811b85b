/** What the bench of the risk runs, to be bundled as it ships: run as written, exported constants cost a fifth more. */
export { compile } from "../../app/forecast/compile.ts";
export { createEngine } from "../../app/forecast/propagate.ts";
export { leadRun, runPart } from "../../app/risk/ask-risk.ts";
export { bandInstants } from "../../app/risk/band-instants.ts";
export { createKernel, runBlocks, tallyFor } from "../../app/risk/run-blocks.ts";
export { createYardstick } from "./yardstick.ts";
