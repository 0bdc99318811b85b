/**
 * Files that cannot be used as they are: refused in plain words, untouched to the byte, nothing left beside them, and the
 * ledger that was open before is still open and can be edited.
 */
import { spawnSync } from "node:child_process";
import { createHash, randomBytes } from "node:crypto";
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { nodeBoundByPermissions } from "./constrained-node.ts";
import { askEdit, editsIn, makeSmallLedger } from "./edit-stream.ts";
import { hosts } from "./hosts.ts";
import type { ServiceChild } from "./service-child.ts";

const folder = mkdtempSync(join(tmpdir(), "coldstock-unusable-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const hashOf = (path: string): string => createHash("sha256").update(readFileSync(path)).digest("hex");

const inSqlite = (path: string, sql: string): void => {
  const db = new Sqlite(path);
  db.exec(sql);
  db.close();
};

interface Case {
  readonly name: string;
  readonly make: (path: string) => void;
  readonly says: RegExp;
}

const sqliteHeader = Buffer.from("SQLite format 3\0", "latin1");

const cases: readonly Case[] = [
  { name: "a newer version", make: (path) => inSqlite(path, "PRAGMA user_version = 990"), says: /newer version/ },
  { name: "cut to its first half", make: (path) => truncateSync(path, statSync(path).size >> 1), says: /cut short/ },
  { name: "cut in the header", make: (path) => truncateSync(path, 50), says: /not a ledger/ },
  { name: "empty", make: (path) => writeFileSync(path, ""), says: /empty/ },
  { name: "random bytes", make: (path) => writeFileSync(path, randomBytes(100_000)), says: /not a ledger/ },
  {
    name: "random bytes under a database's first line",
    make: (path) => writeFileSync(path, Buffer.concat([sqliteHeader, randomBytes(100_000)])),
    says: /another program|not a ledger|damaged/,
  },
  { name: "a text", make: (path) => writeFileSync(path, "propellant,mass\nLOX,12\n"), says: /not a ledger/ },
  {
    name: "another program's database",
    make: (path) => {
      rmSync(path);
      inSqlite(path, "CREATE TABLE contact (name TEXT); INSERT INTO contact VALUES ('somebody')");
    },
    says: /another program/,
  },
];

describe.each(hosts)("in $host", ({ host, start }) => {
  const home = join(folder, host);
  mkdirSync(home);
  const good = join(home, "good.coldstock");
  let service: ServiceChild;
  let nextEdit = 1;
  const EDITS_BEFORE = 30;

  beforeAll(async () => {
    service = start(nodeBoundByPermissions(folder));
    await makeSmallLedger(service, good);
    for (; nextEdit <= EDITS_BEFORE; nextEdit++) await askEdit(service, nextEdit);
    await service.close();
    service = start(nodeBoundByPermissions(folder));
    await service.must("ledger.open", { path: good });
  });
  afterAll(async () => await service.close());

  /** A folder of its own with a closed copy of the good ledger in it. */
  const copyOfGood = async (name: string): Promise<string> => {
    const place = join(home, name);
    mkdirSync(place);
    const path = join(place, "ledger.coldstock");
    const db = new Sqlite(good, { readonly: true });
    await db.backup(path);
    db.close();
    return path;
  };

  describe("a file that cannot be opened", () => {
    it.each(cases)("$name", async ({ name, make, says }) => {
      const path = await copyOfGood(name);
      make(path);
      const before = { hash: hashOf(path), beside: readdirSync(join(home, name)) };
      const reply = await service.ask("ledger.open", { path });
      expect(reply).toMatchObject({ ok: false, failure: { code: "not a ledger" } });
      if (reply === null || reply.ok) throw new Error("opened");
      expect(reply.failure.message).toMatch(says);
      expect(reply.failure.message).toMatch(/^[A-Z].*\.$/);
      expect({ hash: hashOf(path), beside: readdirSync(join(home, name)) }).toEqual(before);

      expect((await service.must("ledger.info", {})).path).toBe(good);
      expect(await askEdit(service, nextEdit++)).toMatchObject({ ok: true });
    });

    it.each([
      ["a file that is not there", (place: string) => join(place, "none.coldstock")],
      ["a folder", (place: string) => place],
    ])("%s", async (name, pathIn) => {
      const place = join(home, name);
      mkdirSync(place);
      expect(await service.ask("ledger.open", { path: pathIn(place) })).toMatchObject({
        ok: false,
        failure: { code: "storage" },
      });
      expect(readdirSync(place)).toEqual([]);
      expect(await askEdit(service, nextEdit++)).toMatchObject({ ok: true });
    });

    it("a pipe: no wait for what never comes", async () => {
      const place = join(home, "pipe");
      mkdirSync(place);
      const path = join(place, "pipe.coldstock");
      if (spawnSync("mkfifo", [path]).status !== 0) throw new Error("mkfifo is not to be had here");
      const reply = await service.ask("ledger.open", { path });
      expect(reply?.ok === false && reply.failure.message).toMatch(/^[A-Z].*(not a file|pipe|is not a ledger).*\.$/);
      expect(readdirSync(place)).toEqual(["pipe.coldstock"]);
      expect(await askEdit(service, nextEdit++)).toMatchObject({ ok: true });
    });

    it("a name too long, to be opened, made or copied to: said as that, and nothing is left", async () => {
      const place = join(home, "long");
      mkdirSync(place);
      const path = join(place, `${"a".repeat(300)}.coldstock`);
      const replies = [
        await service.ask("ledger.open", { path }),
        await service.ask("ledger.create", { path, programme: "Long" }),
        await service.ask("ledger.copy", { path }),
      ];
      for (const reply of replies) expect(reply?.ok === false && reply.failure.message).toMatch(/name .*too long/);
      expect(readdirSync(place)).toEqual([]);
      expect((await service.must("ledger.info", {})).path).toBe(good);
      expect(await askEdit(service, nextEdit++)).toMatchObject({ ok: true });
    });
  });

  describe("a file that may only be read", () => {
    it.each([
      ["the file marked read-only", 0o444, 0o755],
      ["the file and its folder marked read-only", 0o444, 0o555],
    ])("%s: can be looked at, says why it cannot be changed, stays as it is", async (name, fileMode, folderMode) => {
      const path = await copyOfGood(name);
      const place = join(home, name);
      const hash = hashOf(path);
      chmodSync(path, fileMode);
      chmodSync(place, folderMode);
      const reader = start(nodeBoundByPermissions(folder));
      try {
        const info = await reader.must("ledger.open", { path });
        expect(info.readOnlyBecause).toMatch(/[a-z]{3}/);
        expect(editsIn(await reader.must("ledger.export", {})).length).toBeGreaterThanOrEqual(EDITS_BEFORE);
        expect(await askEdit(reader, 9999)).toMatchObject({ ok: false, failure: { code: "read-only" } });
        expect(hashOf(path)).toBe(hash);
      } finally {
        await reader.close();
        chmodSync(place, 0o755);
      }
      expect(readdirSync(place)).toEqual(["ledger.coldstock"]);
    });
  });

  describe("a ledger damaged within", () => {
    it("is either refused or found out by the check of the file, never taken for sound", async () => {
      const path = await copyOfGood("damaged");
      const bytes = readFileSync(path);
      // Spoils the middle third, page by page, but leaves the first page with the header and the list of tables.
      for (let at = 4096 * Math.ceil(bytes.length / 3 / 4096); at < (bytes.length * 2) / 3; at += 512)
        randomBytes(64).copy(bytes, at);
      writeFileSync(path, bytes);
      const hash = hashOf(path);
      const other = start();
      const reply = await other.ask("ledger.open", { path });
      const report = reply?.ok === true ? await other.ask("ledger.verify", {}) : null;
      await other.close();
      const isRefused = reply?.ok === false && reply.failure.code === "not a ledger";
      const isFoundOut = report !== null && (!report.ok || !report.value.isSound);
      expect(isRefused || isFoundOut).toBe(true);
      // Opened, it may be written by SQLite; refused, it is left as it was.
      expect(isFoundOut || hashOf(path) === hash).toBe(true);
    });

    it("page by page: one that is refused leaves the ledger that was open before open", async () => {
      const bytes = readFileSync(await copyOfGood("pages"));
      const [page, pages] = [bytes.readUInt16BE(16), bytes.length / bytes.readUInt16BE(16)];
      let refused = 0;
      for (let n = 1; n < pages; n += 1) {
        const turned = Buffer.from(bytes).fill(0xff, n * page, (n + 1) * page);
        const path = join(home, "pages", `${n}.coldstock`);
        writeFileSync(path, turned);
        const reply = await service.ask("ledger.open", { path });
        if (reply?.ok === true) {
          await service.must("ledger.open", { path: good });
          continue;
        }
        refused += 1;
        expect([n, reply?.failure.code, reply?.failure.message]).toEqual([n, "not a ledger", expect.any(String)]);
        expect([n, (await service.must("ledger.info", {})).path]).toEqual([n, good]);
      }
      expect(refused).toBeGreaterThan(0);
      expect(await askEdit(service, nextEdit++)).toMatchObject({ ok: true });
    });

    it("the good ledger beside it is whole at the end of all this", async () => {
      expect(await service.must("ledger.verify", {})).toMatchObject({ isSound: true });
      expect(editsIn(await service.must("ledger.export", {}))).toEqual(
        Array.from({ length: nextEdit - 1 }, (_, index) => index + 1),
      );
    });
  });
});
