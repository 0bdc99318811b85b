/** What leaves the program: whole or not at all, never over a ledger or what it was read from, over other files if that was said. */
import {
  chmodSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { createLedger } from "../../../db/ledger.ts";
import { writeOut } from "../../../main/page/write-out.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldstock-out-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string) => join(folder, name);
const may = { mayReplace: true, from: null };
const mayNot = { mayReplace: false, from: null };
const storage = (message: RegExp) =>
  expect.objectContaining({ code: "storage", message: expect.stringMatching(message) as string }) as Error;

describe("a new file", () => {
  it("is written whole, with nothing beside it", () => {
    writeOut(at("a.csv"), "ä,−1\n", mayNot);
    expect(readFileSync(at("a.csv"), "utf8")).toBe("ä,−1\n");
    expect(readdirSync(folder)).toEqual(["a.csv"]);
  });

  it("is for its owner alone where the folder is", () => {
    mkdirSync(at("private"), { mode: 0o700 });
    writeOut(at("private/a.pdf"), "x", mayNot);
    expect(statSync(at("private/a.pdf")).mode & 0o777).toBe(0o600);
  });

  it("is refused in words where there is no such folder", () => {
    expect(() => writeOut(at("missing/a.csv"), "x", may)).toThrow(storage(/^a\.csv cannot be written/));
  });
});

describe("what stands there", () => {
  it("stays unless it was said that it may go", () => {
    writeFileSync(at("a.csv"), "old");
    expect(() => writeOut(at("a.csv"), "new", mayNot)).toThrow(storage(/--replace/));
    expect(readFileSync(at("a.csv"), "utf8")).toBe("old");
    writeOut(at("a.csv"), "new", may);
    expect(readFileSync(at("a.csv"), "utf8")).toBe("new");
    expect(readdirSync(folder)).toEqual(["a.csv"]);
  });

  it("hands its mode on", () => {
    writeFileSync(at("a.csv"), "old");
    chmodSync(at("a.csv"), 0o640);
    writeOut(at("a.csv"), "new", may);
    expect(statSync(at("a.csv")).mode & 0o777).toBe(0o640);
  });

  it("is replaced behind a link, which stays; a link to nothing is refused", () => {
    writeFileSync(at("real.csv"), "old");
    symlinkSync("real.csv", at("link.csv"));
    writeOut(at("link.csv"), "new", may);
    expect(readFileSync(at("real.csv"), "utf8")).toBe("new");
    expect(readdirSync(folder).toSorted()).toEqual(["link.csv", "real.csv"]);
    symlinkSync("nowhere.csv", at("dangling.csv"));
    expect(() => writeOut(at("dangling.csv"), "x", may)).toThrow(storage(/link to a file that is not there/));
  });

  it("is never a folder or a device", () => {
    mkdirSync(at("a"));
    expect(() => writeOut(at("a"), "x", may)).toThrow(storage(/folder or a device/));
    expect(() => writeOut("/dev/null", "x", may)).toThrow(storage(/folder or a device/));
  });
});

describe("a ledger", () => {
  const names = {
    "by its name": "a.coldstock",
    "by another ending": "a.json",
    "by a link": "link.json",
    "by a hard link": "hard.pdf",
    "by its log's name": "a.coldstock-wal",
  };
  it.each(Object.entries(names))("is not written over %s", (_how, name) => {
    createLedger(at("a.coldstock"), { programme: "A" }).close();
    if (name === "a.json") writeFileSync(at(name), readFileSync(at("a.coldstock")));
    if (name === "link.json") symlinkSync("a.coldstock", at(name));
    if (name === "hard.pdf") linkSync(at("a.coldstock"), at(name));
    const before = readFileSync(at("a.coldstock"));
    const there = readdirSync(folder);
    for (const from of [null, at("a.coldstock")])
      expect(() => writeOut(at(name), "x", { mayReplace: true, from })).toThrow(
        storage(/is a ledger|is being read|a log of/),
      );
    expect(readFileSync(at("a.coldstock")).equals(before)).toBe(true);
    expect(readdirSync(folder)).toEqual(there);
  });

  it("nor is another program's database", () => {
    const db = new Sqlite(at("theirs.pdf"));
    db.exec("CREATE TABLE contact (name TEXT)");
    db.close();
    expect(() => writeOut(at("theirs.pdf"), "x", may)).toThrow(storage(/is a database/));
  });

  it("nor is what was read, whatever it is", () => {
    writeFileSync(at("source.txt"), "read");
    linkSync(at("source.txt"), at("other.txt"));
    for (const name of ["source.txt", "other.txt"])
      expect(() => writeOut(at(name), "x", { mayReplace: true, from: at("source.txt") })).toThrow(
        storage(/is being read/),
      );
  });
});
