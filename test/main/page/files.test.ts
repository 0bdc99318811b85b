/** What hosts do with files: names, free places, texts whole or not at all, tokens for paths. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { freePath, ledgerFileName } from "../../../main/page/ledger-name.ts";
import { makeLedgerTokens } from "../../../main/page/ledger-tokens.ts";
import { readTextFile } from "../../../main/page/text-file.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-files-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("a ledger's file name", () => {
  it.each([
    ["South Rim", "South Rim.coldstock"],
    ["South Rim.coldstock", "South Rim.coldstock"],
    ["export.json", "export.coldstock"],
    ["../../etc/passwd", "etc passwd.coldstock"],
    ["C:\\x", "C x.coldstock"],
    ["Grat süd – 2", "Grat süd 2.coldstock"],
    ["", "Ledger.coldstock"],
    ["...", "Ledger.coldstock"],
    ["\u0000\n", "Ledger.coldstock"],
    ["x".repeat(500), `${"x".repeat(60)}.coldstock`],
  ])("%j becomes %j", (name, file) => expect(ledgerFileName(name)).toBe(file));

  it("takes no place that is taken", () => {
    writeFileSync(join(folder, "a.coldstock"), "");
    writeFileSync(join(folder, "a 2.coldstock"), "");
    expect(freePath(folder, "a.coldstock")).toBe(join(folder, "a 3.coldstock"));
    expect(freePath(folder, "b.coldstock")).toBe(join(folder, "b.coldstock"));
  });
});

describe("a text file", () => {
  it("is refused where it is no text", () => {
    writeFileSync(join(folder, "a.csv"), Buffer.from([0x61, 0xff, 0xfe]));
    expect(() => readTextFile(join(folder, "a.csv"))).toThrow(/not text in UTF-8/);
    expect(() => readTextFile(join(folder, "none.csv"))).toThrow(/cannot be read/);
    expect(() => readTextFile(folder)).toThrow(/cannot be read/);
    expect(readFileSync(join(folder, "a.csv"))).toHaveLength(3);
  });
});

describe("a token", () => {
  it("stands for one path, and nothing else stands for it", () => {
    const tokens = makeLedgerTokens();
    const token = tokens.tokenOf("/a/b.coldstock");
    expect(tokens.tokenOf("/a/b.coldstock")).toBe(token);
    expect(token).not.toMatch(/coldstock/);
    expect(tokens.pathOf(token)).toBe("/a/b.coldstock");
    for (const other of ["/a/b.coldstock", "", "__proto__", makeLedgerTokens().tokenOf("/a/b.coldstock")])
      expect(() => tokens.pathOf(other)).toThrow(expect.objectContaining({ code: "not found" }) as Error);
  });
});
