/** The bridge of a page served by the browser host: calls by POST, events by an event stream. */
import type { Bridge } from "../../app/contract/bridge.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { browserHost } from "./browser-host.ts";
import { listenTo } from "./event-stream.ts";
import { pageKey, takePageKey } from "./page-key.ts";
import { post } from "./post.ts";

export const browserBridge = (): Bridge => {
  takePageKey();
  const on = listenTo(`/events?key=${encodeURIComponent(pageKey() ?? "")}`);
  return Object.freeze({
    call: ((name: string, input: unknown, jobId?: string): Promise<Reply<unknown>> =>
      post("/call", jobId === undefined ? { name, input } : { name, input, jobId })) as Bridge["call"],
    on,
    host: browserHost(),
  });
};
