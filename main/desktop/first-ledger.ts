/** Which ledger a start opens: the one given, else the one open last, else the demonstration. */
import type { Reply } from "../../app/ground/failure.ts";

export interface FirstLedgerParts {
  readonly given: string | null;
  /** Paths, the latest first. */
  readonly recent: readonly string[];
  open(path: string): Promise<Reply<unknown>>;
  demonstration(): Promise<Reply<unknown>>;
  warn(words: string): void;
}

/** Says what could not be opened, and goes on to the next. */
export const openFirstLedger = async ({
  given,
  recent,
  open,
  demonstration,
  warn,
}: FirstLedgerParts): Promise<void> => {
  const wanted = given ?? recent[0];
  if (wanted !== undefined) {
    const reply = await open(wanted);
    if (reply.ok) return;
    warn(`${wanted} was not opened. ${reply.failure.message}`);
  }
  const reply = await demonstration();
  if (!reply.ok) warn(`The demonstration ledger was not opened. ${reply.failure.message}`);
};
