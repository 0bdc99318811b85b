/** The part of the contract that is about copies of the ledger which the program keeps. */
import { z } from "zod";
import type { GoingBack, KeptCopies, KeptCopy } from "../copies/kept-copy.ts";
import { label } from "../ground/quantity.ts";
import type { LedgerInfo } from "../ledger/ledger-view.ts";
import { command, gives, query } from "./operation.ts";

const copyId = z.string().min(1).max(200);
const path = z.string().min(1).max(4096);

export const copiesOperations = {
  "copies.list": query(
    "The copies that are kept of the open ledger: one a day, and the states that a person named",
    z.strictObject({}),
    gives<KeptCopies>(),
  ),
  "copies.of": query(
    "The same of a ledger file that need not be open, nor be there any more",
    z.strictObject({ path }),
    gives<KeptCopies>(),
  ),
  "copies.keep": command(
    "Keep the ledger as it is under a name, to be able to go back to it",
    z.strictObject({ name: label }),
    gives<KeptCopy>(),
  ),
  "copies.look": query("What going back to a kept copy would change", z.strictObject({ copyId }), gives<GoingBack>()),
  "copies.goBack": command(
    "Go back to a kept copy; the ledger as it is is kept as a named state first. `revision`: as it was looked at",
    z.strictObject({ copyId, revision: z.int().min(0) }),
    gives<LedgerInfo>(),
  ),
  "copies.putBack": command(
    "Put a kept copy in the place of a ledger that cannot be opened or has gone; what stands there is put aside",
    z.strictObject({ path, copyId }),
    gives<LedgerInfo>(),
  ),
} as const;
