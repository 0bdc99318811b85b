/** The answers that are still being made or sent, so that a host that ends waits for them and for nothing else. */
import type { ServerResponse } from "node:http";

export interface RunningAnswers {
  add(response: ServerResponse): void;
  /** Resolves when each has gone out or its connection has, after `limitMs` at the latest. */
  finished(limitMs: number): Promise<void>;
}

export const runningAnswers = (): RunningAnswers => {
  const open = new Set<ServerResponse>();
  let tellEmpty: (() => void) | null = null;
  return {
    add: (response) => {
      open.add(response);
      response.once("close", () => {
        open.delete(response);
        if (open.size === 0) tellEmpty?.();
      });
    },
    finished: (limitMs) =>
      new Promise((resolve) => {
        if (open.size === 0) {
          resolve();
          return;
        }
        const timer = setTimeout(resolve, limitMs);
        tellEmpty = () => {
          clearTimeout(timer);
          resolve();
        };
      }),
  };
};
