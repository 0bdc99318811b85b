/** The demonstration ledgers by name. */
import type { Input } from "../../app/contract/contract.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import { demoBeck } from "../../app/demo/beck.ts";
import { demoTarn } from "../../app/demo/tarn.ts";

export const demonstrations: { readonly [W in Input<"ledger.demo">["which"]]: () => LedgerDocument } = {
  tarn: demoTarn,
  beck: demoBeck,
};
