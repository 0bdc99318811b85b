/** The page's questions as both hosts take them: operations that name a path are the host's alone. */
import { hostOperations } from "../../app/contract/contract.ts";
import type { Failure, Reply } from "../../app/ground/failure.ts";
import { type HostInput, hostInputs, type HostMethod } from "../../app/contract/host-input.ts";
import { parseInput } from "../../app/ground/parse-input.ts";
import { PlanningError } from "../../app/ground/failure.ts";
import type { Environment } from "../service/environment.ts";
import { failureOf } from "../service/failing.ts";

/** What a host does for its page beside the contract. Each gives the value of a reply, or throws. */
export type HostMethods<M extends HostMethod> = {
  readonly [K in M]: (...input: HostInput<K>) => unknown;
};

const forbidden: Failure = {
  code: "forbidden",
  message: "A page may not name a file; ask the host for it.",
  field: null,
};

export const isForbiddenToPages = (name: unknown): boolean => (hostOperations as readonly unknown[]).includes(name);

export const FORBIDDEN: Reply<never> = { ok: false, failure: forbidden };

/** Unwraps a reply of the service, so that a host method can go on with its value or fail with its failure. */
export const valueOf = <T>(reply: Reply<T>): T => {
  if (reply.ok) return reply.value;
  throw new PlanningError(reply.failure.code, reply.failure.message, reply.failure.field);
};

/** Checks the input of a host method, does it, and answers with a reply. Never throws. */
export const answerHostMethod = async <M extends HostMethod>(
  methods: HostMethods<M>,
  method: unknown,
  rawInput: unknown,
  environment: Environment,
): Promise<Reply<unknown>> => {
  try {
    if (typeof method !== "string" || !Object.hasOwn(methods, method))
      throw new PlanningError("not found", "This host has nothing of this name.");
    const input = parseInput<unknown>(hostInputs[method as M], rawInput) as HostInput<M>;
    return { ok: true, value: await methods[method as M](...input) };
  } catch (error) {
    return { ok: false, failure: failureOf(error, "host method", environment) };
  }
};
