/** Server-sent events to every page that listens. */
import type { ServerResponse } from "node:http";
import type { BridgeEventName, BridgeEvents } from "../../app/contract/bridge.ts";
import { toTypedJson } from "../../app/contract/typed-json.ts";
import { pageHeaders } from "../page/content-policy.ts";

const KEEP_ALIVE_MS = 20_000;
const MAX_STREAMS = 20;

export interface EventStreams {
  /** Keeps the answer open; `first` is sent at once. False: too many listen already. */
  add(response: ServerResponse, first: string): boolean;
  tell<E extends BridgeEventName>(event: E, payload: BridgeEvents[E]): void;
  close(): void;
}

export const eventText = <E extends BridgeEventName>(event: E, payload: BridgeEvents[E]): string =>
  `event: ${event}\ndata: ${toTypedJson(payload)}\n\n`;

export const eventStreams = (): EventStreams => {
  const open = new Set<ServerResponse>();
  const send = (text: string): void => {
    for (const stream of open) stream.write(text);
  };
  const timer = setInterval(() => send(": still here\n\n"), KEEP_ALIVE_MS).unref();
  return {
    add: (response, first) => {
      if (open.size >= MAX_STREAMS) return false;
      response.writeHead(200, { ...pageHeaders, "content-type": "text/event-stream", "cache-control": "no-store" });
      response.write(`retry: 1000\n\n${first}`);
      open.add(response);
      response.on("close", () => open.delete(response));
      return true;
    },
    tell: (event, payload) => send(eventText(event, payload)),
    close: () => {
      clearInterval(timer);
      for (const stream of open) stream.end();
      open.clear();
    },
  };
};
