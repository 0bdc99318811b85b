/** The page's one client of the service: calls over the bridge, long calls with progress and stop. */
import type { Bridge } from "../app/contract/bridge.ts";
import type { Input, Output, PageOperation } from "../app/contract/contract.ts";
import type { Reply } from "../app/contract/failure.ts";

export interface Client {
  /** Asks the service; what goes wrong is a failure in the reply, never a rejection. */
  readonly call: <N extends PageOperation>(name: N, input: Input<N>) => Promise<Reply<Output<N>>>;
  /** The same for long work; `stop` asks the service to stop it, and the reply is then a failure "cancelled". */
  readonly begin: <N extends PageOperation>(
    name: N,
    input: Input<N>,
  ) => { readonly jobId: string; readonly reply: Promise<Reply<Output<N>>>; readonly stop: () => void };
  readonly on: Bridge["on"];
  readonly host: Bridge["host"];
}

export const createClient = (bridge: Bridge): Client => ({
  call: (name, input) => bridge.call(name, input),
  begin: (name, input) => {
    const jobId = crypto.randomUUID();
    return {
      jobId,
      reply: bridge.call(name, input, jobId),
      stop: () => void bridge.call("job.cancel", { jobId }),
    };
  },
  on: (event, listener) => bridge.on(event, listener),
  host: bridge.host,
});
