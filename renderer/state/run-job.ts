/** Long work under way: shown in the status line with how far it has come (state/start.ts hears it) and a way to stop it. */
import type { Input, Output, PageOperation } from "../../app/contract/contract.ts";
import type { Reply } from "../../app/contract/failure.ts";
import type { RunningJob } from "./app-state.ts";
import type { Session } from "./session.ts";

/** Asks for it and stays with it to its end. A failure is in the reply; "cancelled" where the person stopped it. */
export const runJob = async <N extends PageOperation>(
  { client, store }: Session,
  title: string,
  name: N,
  input: Input<N>,
): Promise<Reply<Output<N>>> => {
  const { jobId, reply } = client.begin(name, input);
  const job: RunningJob = { jobId, title, share: null, words: "" };
  store.set({ jobs: [...store.get().jobs, job] });
  try {
    return await reply;
  } finally {
    store.set({ jobs: store.get().jobs.filter((each) => each.jobId !== jobId) });
  }
};
