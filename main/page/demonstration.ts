/** The demonstration ledgers in a host's own folder: made when first asked for, opened as they are afterwards. */
import { existsSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Reply } from "../../app/ground/failure.ts";
import type { LedgerInfo } from "../../app/ledger/ledger-view.ts";
import { LEDGER_ENDING } from "./ledger-name.ts";

export type Demonstration = "tarn" | "beck";

const names: Readonly<Record<Demonstration, string>> = { tarn: "Tarn demonstration", beck: "Beck demonstration" };

type Call = (name: "ledger.open" | "ledger.demo", input: object) => Promise<Reply<unknown>>;

export const openDemonstration = async (
  which: Demonstration,
  folder: string,
  call: Call,
): Promise<Reply<LedgerInfo>> => {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const path = join(folder, `${names[which]}${LEDGER_ENDING}`);
  const reply = existsSync(path) ? await call("ledger.open", { path }) : await call("ledger.demo", { path, which });
  return reply as Reply<LedgerInfo>;
};
