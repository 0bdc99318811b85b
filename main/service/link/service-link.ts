/**
 * A host's link to the service's process: asks, listens, and watches. When the process dies it is started again and
 * opens the same ledger; what it had acknowledged is in the file.
 */
import { type Failure, PlanningError, type Reply } from "../../../app/ground/failure.ts";
import type { ServiceEvent } from "../service.ts";
import type { Child } from "./child.ts";

export interface ServiceLink {
  call(name: unknown, input: unknown, jobId?: unknown): Promise<Reply<unknown>>;
  /** Asks the service to close its file and waits until it has gone; ends it if it does not go. */
  close(): Promise<void>;
}

export interface LinkListener {
  onEvent(event: ServiceEvent): void;
  /** Something the person should know. `isOver`: the service will not come back. */
  onNotice(words: string, isOver: boolean): void;
}

/** So many deaths within the span, and starting again is no use. */
const MAX_DEATHS = 3;
const DEATH_SPAN_MS = 60_000;
const CLOSING_MS = 4000;

const BROKEN_OFF: Failure = {
  code: "storage",
  message:
    "The ledger service stopped while this was being done. It was started again: look whether the change is there, " +
    "and do it again if not.",
  field: null,
};
const OVER: Failure = {
  code: "storage",
  message: "The ledger service does not run. Quit Coldstock and start it again; what was acknowledged is in the file.",
  field: null,
};

export const RESTARTED = "The ledger service stopped and was started again; nothing acknowledged was lost.";
const GIVEN_UP =
  "The ledger service stopped several times within a minute and was not started again. Quit Coldstock and start it " +
  "again; nothing acknowledged was lost.";

/** `start` gives a fresh process; `now` is a clock in ms. */
export const linkService = (start: () => Child, listener: LinkListener, now: () => number): ServiceLink => {
  const waiting = new Map<number, (reply: Reply<unknown>) => void>();
  const deaths: number[] = [];
  let child: Child | null = null;
  let nextCall = 1;
  let openPath: string | null = null;
  let isClosing = false;
  let whenGone = (): void => undefined;

  const ask = (name: unknown, input: unknown, jobId: unknown): Promise<Reply<unknown>> => {
    const to = child;
    if (to === null) return Promise.resolve({ ok: false, failure: OVER });
    const callId = nextCall++;
    return new Promise((resolve) => {
      waiting.set(callId, resolve);
      try {
        to.post({ kind: "call", callId, name, input, jobId });
      } catch {
        // Functions, symbols and the like cannot cross.
        waiting.delete(callId);
        const { code, message, field } = new PlanningError("invalid input", "Plain data is expected here.");
        resolve({ ok: false, failure: { code, message, field } });
      }
    });
  };

  const hear = (from: Child): void => {
    from.onMessage((message) => {
      if (message.kind === "reply") {
        waiting.get(message.callId)?.(message.reply);
        waiting.delete(message.callId);
        return;
      }
      if (message.event.event === "changed") openPath = message.event.payload.path;
      listener.onEvent(message.event);
    });
    from.onExit(() => {
      if (child === from) child = null;
      for (const answer of waiting.values()) answer({ ok: false, failure: BROKEN_OFF });
      waiting.clear();
      whenGone();
      if (!isClosing) comeBack();
    });
  };

  const begin = (): void => {
    child = start();
    hear(child);
  };

  const comeBack = (): void => {
    deaths.push(now());
    const recent = deaths.filter((at) => at > now() - DEATH_SPAN_MS);
    if (recent.length >= MAX_DEATHS) {
      listener.onNotice(GIVEN_UP, true);
      return;
    }
    begin();
    const path = openPath;
    if (path === null) {
      listener.onNotice(RESTARTED, false);
      return;
    }
    void ask("ledger.open", { path }, null).then((reply) =>
      listener.onNotice(
        reply.ok ? RESTARTED : `The ledger service was started again, but: ${reply.failure.message}`,
        false,
      ),
    );
  };

  begin();
  return {
    call: (name, input, jobId) => ask(name, input, jobId ?? null),
    close: async () => {
      isClosing = true;
      const leaving = child;
      if (leaving === null) return;
      await new Promise<void>((resolve) => {
        const timer = setTimeout(() => leaving.kill(), CLOSING_MS);
        whenGone = () => {
          clearTimeout(timer);
          resolve();
        };
        leaving.post({ kind: "close" });
      });
    },
  };
};
