/** The part of the contract that is about the ledger file: opening, making, checking, copies, the as-of instant. */
import { z } from "zod";
import { instant, label } from "../ground/quantity.ts";
import type { Books, Soundness, LedgerDocument, LedgerInfo } from "../ledger/ledger-view.ts";
import { command, gives, query } from "./operation.ts";

const nothing = z.strictObject({});
const path = z.string().min(1).max(4096);
/** Text that came from a file: at most 64 MB. */
const fileText = z.string().max(64_000_000);

export const ledgerOperations = {
  "ledger.info": query(
    "The open ledger: file, programme, as-of instant, plan cases, undo and redo",
    nothing,
    gives<LedgerInfo>(),
  ),
  "ledger.open": command("Open a ledger file", z.strictObject({ path }), gives<LedgerInfo>()),
  "ledger.create": command(
    "Make an empty ledger, or one with the plan of a demonstration and none of its records",
    z.strictObject({ path, programme: label, copyOf: z.enum(["tarn", "beck"]).optional() }),
    gives<LedgerInfo>(),
  ),
  "ledger.demo": command(
    "Make a demonstration ledger",
    z.strictObject({ path, which: z.enum(["tarn", "beck"]) }),
    gives<LedgerInfo>(),
  ),
  "ledger.verify": query(
    "Check the file: database integrity, balance of the books, references",
    nothing,
    gives<Soundness>(),
  ),
  "ledger.books": query(
    "The books that have the digest a report prints: how many entries they hold; null: this ledger never had such books",
    z.strictObject({ digest: z.string().regex(/^[0-9a-f]{8,64}$/) }),
    gives<Books | null>(),
  ),
  "ledger.export": query("The whole ledger as a document", nothing, gives<LedgerDocument>()),
  "ledger.import": command(
    "Make a ledger from an exported document (JSON text)",
    z.strictObject({ path, text: fileText }),
    gives<LedgerInfo>(),
  ),
  "ledger.copy": command(
    "Write the whole ledger, with its history, as a new file; the open one stays open",
    z.strictObject({ path }),
    gives<{ readonly written: string }>(),
  ),
  "ledger.asOf": command(
    "Set the instant from which the forecast starts; null: the last record",
    z.strictObject({ asOfAt: instant.nullable() }),
    gives<LedgerInfo>(),
  ),
} as const;
