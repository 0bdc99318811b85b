/** Long work of the page: every question and every long command goes through here, is listed in the status line with how far it has come, and can be stopped. */
import type { Input, Output, PageOperation, PartialAnswer } from "../../app/contract/contract.ts";
import type { Reply } from "../../app/ground/failure.ts";
import type { Progress } from "../../app/work/working.ts";
import type { Client } from "./client.ts";
import type { AppState, RunningWork } from "./app-state.ts";
import type { Store } from "./store.ts";

/** Progress of one operation, its partial answer by type. */
export type ProgressOf<N extends PageOperation> = Progress<PartialAnswer<N>>;

interface HowToWork<N extends PageOperation> {
  /** What the status line calls it; null: too short to be listed. */
  readonly title: string | null;
  /** A newer call of the same asker stops the older one. */
  readonly asker?: string;
  readonly onProgress?: (progress: ProgressOf<N>) => void;
}

interface Begun<N extends PageOperation> {
  readonly jobId: string;
  /** Stopped, it is the answer so far where the question has one, else a failure "cancelled". */
  readonly reply: Promise<Reply<Output<N>>>;
  readonly stop: () => void;
}

/** A call of the host that takes long: it is handed the job id. */
type LongCall<T> = (jobId: string) => Promise<Reply<T>>;

export interface Work {
  /** The same for what the host does: listed, stopped, superseded by a newer call of the same asker. */
  readonly run: <T>(
    how: { readonly title: string; readonly asker: string },
    call: LongCall<T>,
  ) => { readonly reply: Promise<Reply<T>>; readonly stop: () => void };
  readonly begin: <N extends PageOperation>(name: N, input: Input<N>, how: HowToWork<N>) => Begun<N>;
}

export const createWork = (client: Client, store: Store<AppState>): Work => {
  const listeners = new Map<string, (progress: Progress) => void>();
  client.on("progress", ({ jobId, ...progress }) => listeners.get(jobId)?.(progress));

  const list = (change: (work: readonly RunningWork[]) => readonly RunningWork[]): void =>
    store.set({ work: change(store.get().work) });

  const follow = <T>(
    { jobId, reply, stop }: { readonly jobId: string; readonly reply: Promise<Reply<T>>; readonly stop: () => void },
    title: string | null,
    onProgress: ((progress: Progress) => void) | undefined,
  ) => {
    listeners.set(jobId, (progress) => {
      if (title !== null) list((work) => work.map((each) => (each.jobId === jobId ? { ...each, progress } : each)));
      onProgress?.(progress);
    });
    if (title !== null) list((work) => [...work, { jobId, title, startedAt: performance.now(), progress: null, stop }]);
    const done = reply.finally(() => {
      listeners.delete(jobId);
      if (title !== null) list((work) => work.filter((each) => each.jobId !== jobId));
    });
    return { jobId, reply: done, stop };
  };

  return {
    begin: (name, input, { title, asker, onProgress }) =>
      follow(
        client.begin((jobId) => client.call(name, input, jobId), asker),
        title,
        onProgress as ((progress: Progress) => void) | undefined,
      ),
    run: ({ title, asker }, call) => follow(client.begin(call, asker), title, undefined),
  };
};
