/**
 * Nothing is written over a ledger, however its path is put: a new ledger, one made of a document, and a copy, at a place
 * where a ledger stands, under either host. (Reports and tables: test/main/page/write-out.test.ts.)
 */
import { linkSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { documentText } from "../../app/exchange/ledger-document.ts";
import { askEdit, editsIn, makeSmallLedger } from "./edit-stream.ts";
import { hosts } from "./hosts.ts";
import type { ServiceChild } from "./service-child.ts";

const root = mkdtempSync(join(tmpdir(), "coldstock-over-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const otherPaths: readonly (readonly [string, (path: string, folder: string) => string])[] = [
  ["its own path", (path) => path],
  ["a path from where the program stands", (path) => relative(process.cwd(), path)],
  ["a path around a corner", (path, folder) => join(folder, "sub") + `/../${path.slice(folder.length + 1)}`],
  [
    "a hard link",
    (path, folder) => {
      linkSync(path, join(folder, "linked.coldstock"));
      return join(folder, "linked.coldstock");
    },
  ],
  [
    "a symbolic link of another ending",
    (path, folder) => {
      symlinkSync(path, join(folder, "pointing.html"));
      return join(folder, "pointing.html");
    },
  ],
];

describe.each(hosts)("under $host", ({ start }) => {
  let service: ServiceChild;
  beforeAll(() => {
    service = start();
  });
  afterAll(async () => await service.close());

  /** The edits that the open ledger holds, which is sound. */
  const held = async (): Promise<readonly number[]> => {
    expect(await service.must("ledger.verify", {})).toMatchObject({ isSound: true, faults: [] });
    return editsIn(await service.must("ledger.export", {}));
  };

  it.each(otherPaths)("nothing takes the place of a ledger that is named by %s", async (_how, named) => {
    const folder = mkdtempSync(join(root, "o-"));
    mkdirSync(join(folder, "sub"));
    const [open, other] = [join(folder, "open.coldstock"), join(folder, "other.coldstock")];
    await makeSmallLedger(service, other);
    expect(await askEdit(service, 7)).toMatchObject({ ok: true });
    await makeSmallLedger(service, open);
    expect(await askEdit(service, 1)).toMatchObject({ ok: true });
    const text = documentText(await service.must("ledger.export", {}));
    const before = readFileSync(other);
    // The one that is closed, and the open one itself.
    for (const path of [named(other, folder), open]) {
      const replies = [
        await service.ask("ledger.copy", { path }),
        await service.ask("ledger.create", { path, programme: "Over" }),
        await service.ask("ledger.import", { path, text }),
        await service.ask("ledger.demo", { path, which: "tarn" }),
      ];
      for (const reply of replies)
        expect(reply).toMatchObject({
          ok: false,
          failure: { code: "storage", message: expect.stringMatching(/^[A-Z].*\.$/) as string },
        });
    }
    expect(readFileSync(other).equals(before)).toBe(true);
    expect(readdirSync(folder).filter((name) => /draft|part/.test(name))).toEqual([]);
    // And what is open can be edited on.
    expect(await askEdit(service, 2)).toMatchObject({ ok: true });
    expect(await held()).toEqual([1, 2]);
    await service.must("ledger.open", { path: other });
    expect(await held()).toEqual([7]);
  });
});
