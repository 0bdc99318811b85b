/** The page's one client of the service: calls over the bridge, long calls with progress and stop. */
import type { Bridge } from "../../app/contract/bridge.ts";
import type { Input, Output, PageOperation } from "../../app/contract/contract.ts";
import { editsLedger } from "../../app/contract/edits.ts";
import type { Failure, Reply } from "../../app/ground/failure.ts";

export interface Client {
  /** Asks the service; what goes wrong is a failure in the reply, never a rejection. */
  readonly call: <N extends PageOperation>(name: N, input: Input<N>, jobId?: string) => Promise<Reply<Output<N>>>;
  /**
   * The same for long work: `call` is handed a job id, under which progress is told; `stop` asks the service to stop it.
   * A newer call of the same asker stops the older one.
   */
  readonly begin: <T>(
    call: (jobId: string) => Promise<Reply<T>>,
    asker?: string,
  ) => { readonly jobId: string; readonly reply: Promise<Reply<T>>; readonly stop: () => void };
  readonly on: Bridge["on"];
  readonly host: Bridge["host"];
}

/** `refusal`: why nothing may be changed just now; null: it may. What only asks is not refused. */
export const createClient = (bridge: Bridge, refusal: () => Failure | null = () => null): Client => ({
  call: async (name, input, jobId) => {
    const failure = editsLedger(name) ? refusal() : null;
    return failure === null ? bridge.call(name, input, jobId) : { ok: false, failure };
  },
  begin: (call, asker) => {
    const id = crypto.randomUUID();
    const jobId = asker === undefined ? id : `${asker}#${id}`;
    return { jobId, reply: call(jobId), stop: () => void bridge.call("job.cancel", { jobId }) };
  },
  on: (event, listener) => bridge.on(event, listener),
  host: {
    ...bridge.host,
    takeMerge: async (...merge) => {
      const failure = refusal();
      return failure === null ? bridge.host.takeMerge(...merge) : { ok: false, failure };
    },
  },
});
