/** What the service takes from outside itself: the clock, the person, fresh ids, the log. Tests pass their own. */
import { randomUUID } from "node:crypto";
import { userInfo } from "node:os";

export interface Environment {
  /** The present instant, ms UTC. */
  now(): number;
  /** Who is doing this; 1 to 80 characters. */
  author(): string;
  /** A fresh id of the ledger's form, "entry-…". */
  newId(prefix: string): string;
  /** Writes a defect down; answers the id under which the log has it. */
  logDefect(where: string, error: unknown): string;
}

const authorName = (): string => {
  try {
    return userInfo().username.slice(0, 80) || "someone";
  } catch {
    // An account without a name (some containers) is no reason to stop.
    return "someone";
  }
};

/** `write` takes one finished line of the log. */
export const systemEnvironment = (write: (line: string) => void): Environment => {
  const author = authorName();
  return {
    now: () => Date.now(),
    author: () => author,
    newId: (prefix) => `${prefix}-${randomUUID()}`,
    logDefect: (where, error) => {
      const logId = randomUUID().slice(0, 8);
      const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
      write(`${new Date().toISOString()} [${logId}] ${where}: ${words}`);
      return logId;
    },
  };
};
