/** The two ways in which a service runs: a process of its own (desktop), or within its host's process (browser host, command line). */
import type { Input, OperationName, Output } from "../../app/contract/contract.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { composeService } from "../../main/service/compose.ts";
import { type ServiceChild, startService } from "./service-child.ts";

const within = (): ServiceChild => {
  const service = composeService(false, () => undefined);
  const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Reply<Output<N>> | null> =>
    await service.call(name, input);
  return {
    ask,
    must: async (name, input) => {
      const reply = await ask(name, input);
      if (reply?.ok === true) return reply.value;
      throw new Error(`${name}: ${reply?.failure.message}`);
    },
    kill: async () => await Promise.reject(new Error("only a process of its own can be killed")),
    close: async () => await service.close(),
  };
};

export const hosts: readonly { readonly host: string; readonly start: () => ServiceChild }[] = [
  { host: "a process of its own", start: () => startService() },
  { host: "the host's process", start: within },
];
