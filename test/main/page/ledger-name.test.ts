/** File names of ledgers that every system takes. */
import { expect, it } from "vitest";
import { ledgerFileName } from "../../../main/page/ledger-name.ts";

it("keeps letters and digits of any script", () =>
  expect(ledgerFileName("Südpol 2031 (氷)")).toBe("Südpol 2031 (氷).coldstock"));

it.each(["../../etc/passwd", "a/b\\c:d*?<>|", "\u202ecod", "\u0000x"])(
  "leaves nothing of a path or a mark in %j",
  (name) => expect(ledgerFileName(name)).toMatch(/^[\p{L}\p{N} _()-]+\.coldstock$/u),
);

it.each(["con", "PRN", "aux.coldstock", "nul", "COM1", "lpt9", "com²"])(
  "%j is the name of a device on some system, with any ending",
  (name) => expect(ledgerFileName(name)).toMatch(/ ledger\.coldstock$/),
);

it.each(["", "   ", "…"])("%j has no name to give", (name) => expect(ledgerFileName(name)).toBe("Ledger.coldstock"));
