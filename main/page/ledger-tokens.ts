/** Tokens that stand for paths: the page sees and sends tokens, the host keeps the paths. */
import { randomUUID } from "node:crypto";
import { PlanningError } from "../../app/ground/failure.ts";

export interface LedgerTokens {
  tokenOf(path: string): string;
  /** Throws "not found". */
  pathOf(token: string): string;
}

export const makeLedgerTokens = (): LedgerTokens => {
  const byPath = new Map<string, string>();
  const byToken = new Map<string, string>();
  return {
    tokenOf: (path) => {
      const known = byPath.get(path);
      if (known !== undefined) return known;
      const token = randomUUID();
      byPath.set(path, token);
      byToken.set(token, path);
      return token;
    },
    pathOf: (token) => {
      const path = byToken.get(token);
      if (path === undefined) throw new PlanningError("not found", "This ledger is no longer in the list.");
      return path;
    },
  };
};
