/** The service's one door: a name and anything at all come in, a reply goes out. It never throws. */
import { contract, type OperationName } from "../../app/contract/contract.ts";
import { laneOf } from "../../app/contract/operation.ts";
import { PlanningError, type Reply } from "../../app/ground/failure.ts";
import { parseInput } from "../../app/ground/parse-input.ts";
import type { Context, Handler } from "./context.ts";
import { failureOf } from "./failing.ts";
import { handlers } from "./handlers.ts";
import { refuseOversize } from "./input-size.ts";

/** Whether the contract has it; names of the prototype ("constructor") are not in it. */
export const isOperation = (name: unknown): name is OperationName =>
  typeof name === "string" && Object.hasOwn(contract, name);

const shown = (name: unknown): string => (typeof name === "string" ? `"${name.slice(0, 60)}"` : "this");

/** Looks the operation up, checks the input, does it, and turns whatever is thrown into a failure. */
export const dispatch = async (name: unknown, rawInput: unknown, context: Context): Promise<Reply<unknown>> => {
  try {
    if (!isOperation(name)) throw new PlanningError("not found", `There is no operation called ${shown(name)}.`);
    refuseOversize(rawInput);
    const input = parseInput<unknown>(contract[name].input, rawInput);
    const handler = handlers[name] as Handler<OperationName>;
    return { ok: true, value: await handler(input as never, { ...context, lane: laneOf(contract[name], input) }) };
  } catch (error) {
    return { ok: false, failure: failureOf(error, `operation ${shown(name)}`, context.environment) };
  }
};
