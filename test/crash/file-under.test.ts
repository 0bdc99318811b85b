/**
 * The file under the program: deleted, moved, replaced, restored, cut, linked while a ledger is open or after a crash. No
 * edit is acknowledged that the file does not get, no log reaches a file that it was not written for.
 */
import {
  chmodSync,
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { openLedger } from "../../db/ledger.ts";
import { nodeBoundByPermissions } from "./constrained-node.ts";
import { askEdit, editsIn, makeSmallLedger } from "./edit-stream.ts";
import { hosts } from "./hosts.ts";
import { type ServiceChild, startService } from "./service-child.ts";

const root = mkdtempSync(join(tmpdir(), "coldstock-under-"));
// Each test starts several processes.
vi.setConfig({ testTimeout: 300_000 });
afterAll(() => rmSync(root, { recursive: true, force: true }));

let folders = 0;
const freshPath = (): string => {
  const folder = join(root, String((folders += 1)));
  mkdirSync(folder);
  return join(folder, "open.coldstock");
};

const edits = async (service: ServiceChild, from: number, until: number): Promise<void> => {
  for (let n = from; n <= until; n++) expect(await askEdit(service, n)).toMatchObject({ ok: true });
};
const upTo = (n: number): readonly number[] => Array.from({ length: n }, (_, index) => index + 1);

/** Opens the file anew and gives the edits that a sound ledger holds. */
const heldIn = (path: string): readonly number[] => {
  const store = openLedger(path);
  try {
    expect(store.verify()).toMatchObject({ isSound: true, faults: [] });
    return editsIn(store.document());
  } finally {
    store.close();
  }
};

interface Mishap {
  readonly name: string;
  readonly happen: (path: string, older: string) => void;
  readonly says: RegExp;
  /** Edits in the file under the name afterwards; null: there is none or it cannot be opened. */
  readonly left: number | null;
  /** Whether everything in hand can still be saved. */
  readonly canSave: boolean;
}

const mishaps: readonly Mishap[] = [
  { name: "deleted", happen: (path) => rmSync(path), says: /was deleted or moved/, left: null, canSave: true },
  {
    name: "moved away",
    happen: (path) => renameSync(path, `${path}.moved`),
    says: /was deleted or moved/,
    left: null,
    canSave: true,
  },
  {
    name: "replaced by an older copy",
    happen: (path, older) => renameSync(older, path),
    says: /was replaced by another file/,
    left: 4,
    canSave: true,
  },
  {
    name: "written over in its place by an older copy",
    happen: (path, older) => copyFileSync(older, path),
    says: /was changed by another program/,
    left: 4,
    canSave: false,
  },
  {
    name: "cut to nothing",
    happen: (path) => truncateSync(path, 0),
    says: /was changed by another program/,
    left: null,
    canSave: false,
  },
  { name: "robbed of its log", happen: (path) => rmSync(`${path}-wal`), says: /lost the log/, left: 8, canSave: true },
];

describe.each(hosts)("under a ledger open in $host", ({ start }) => {
  /** One process for the tests that end none. */
  let service: ServiceChild;
  beforeAll(() => {
    service = start();
  });
  afterAll(async () => await service.close());
  /** Closes the ledger that is open: another takes its place. */
  const putAside = async (): Promise<void> =>
    void (await service.must("ledger.create", { path: freshPath(), programme: "Aside" }));

  it.each(mishaps)("$name: nothing more is taken, and it is said", async ({ happen, says, left, canSave }) => {
    const path = freshPath();
    await makeSmallLedger(service, path);
    await edits(service, 1, 4);
    await putAside();
    const older = `${path}.older`;
    copyFileSync(path, older);
    await service.must("ledger.open", { path });
    await edits(service, 5, 8);
    happen(path, older);
    for (const refused of [await askEdit(service, 9), await service.ask("plan.undo", {})])
      expect(refused).toMatchObject({
        ok: false,
        failure: { code: "read-only", message: expect.stringMatching(says) as string },
      });
    expect((await service.must("ledger.info", {})).readOnlyBecause).toMatch(/Save a copy/);
    const saved = join(path, "..", "saved.coldstock");
    const reply = await service.ask("ledger.copy", { path: saved });
    // What was changed under the program may be saved or refused, never saved wrong.
    if (canSave) expect(reply).toMatchObject({ ok: true });
    if (reply?.ok === true) expect(heldIn(saved)).toEqual(upTo(8));
    else expect(existsSync(saved)).toBe(false);
    await putAside();
    expect(existsSync(`${path}-wal`)).toBe(false);
    if (left !== null) expect(heldIn(path)).toEqual(upTo(left));
  });

  it.each([
    ["a hard link in its folder", (path: string, other: string) => linkSync(path, other), "beside.coldstock"],
    ["a hard link in another folder", (path: string, other: string) => linkSync(path, other), "apart/linked.coldstock"],
    ["a symbolic link", (path: string, other: string) => symlinkSync(path, other), "apart/pointing.coldstock"],
  ])("%s is no second ledger", async (_how, link, name) => {
    const path = freshPath();
    mkdirSync(join(path, "../apart"));
    const other = join(path, "..", name);
    await makeSmallLedger(service, path);
    await edits(service, 1, 3);
    link(path, other);
    const second = startService();
    expect((await second.must("ledger.open", { path: other })).readOnlyBecause).toMatch(/it is open in/);
    expect(await askEdit(second, 99)).toMatchObject({ ok: false, failure: { code: "read-only" } });
    await edits(service, 4, 6);
    await second.close();
    await putAside();
    expect(heldIn(other)).toEqual(upTo(6));
  });

  it("an import or a new ledger that cannot be finished leaves no file", async () => {
    const path = freshPath();
    await makeSmallLedger(service, path);
    const document = await service.must("ledger.export", {});
    const spoiled = JSON.stringify({ ...document, entries: [...document.entries, ...document.entries] });
    const target = join(path, "../made.coldstock");
    expect(await service.ask("ledger.import", { path: target, text: spoiled })).toMatchObject({ ok: false });
    expect(readdirSync(join(path, "..")).filter((name) => name.includes("made"))).toEqual([]);
  });

  it("what it makes is for its owner alone", async () => {
    const path = freshPath();
    await makeSmallLedger(service, path);
    for (const name of readdirSync(join(path, "..")))
      expect([name, statSync(join(path, "..", name)).mode & 0o077]).toEqual([name, 0]);
  });
});

describe.each(hosts)("after a crash of $host", ({ start }) => {
  const crashed = async () => {
    const path = freshPath();
    const first = start();
    await makeSmallLedger(first, path);
    await edits(first, 1, 4);
    await first.close();
    const older = readFileSync(path);
    const service = start();
    await service.must("ledger.open", { path });
    await edits(service, 5, 10);
    await service.kill();
    return { path, older };
  };

  it("the log of the killed program is read in", async () => {
    const { path } = await crashed();
    expect(heldIn(path)).toEqual(upTo(10));
  });

  it.each([
    ["written over the file", (path: string, bytes: Buffer) => writeFileSync(path, bytes)],
    [
      "put in its place",
      (path: string, bytes: Buffer) => {
        writeFileSync(`${path}.copy`, bytes);
        renameSync(`${path}.copy`, path);
      },
    ],
  ])("a copy %s while the program is closed wins over the old log, which is kept apart", async (_how, restore) => {
    const { path, older } = await crashed();
    restore(path, older);
    expect(heldIn(path)).toEqual(upTo(4));
    expect(readdirSync(join(path, ".."))).toContain("open.coldstock.log-of-another-file");
  });

  it("where the log cannot be read in, it says how many pages are pending, and refuses", async () => {
    const { path } = await crashed();
    const folder = join(path, "..");
    rmSync(`${path}-shm`, { force: true });
    chmodSync(folder, 0o555);
    const service = start(nodeBoundByPermissions(root));
    try {
      for (const name of ["ledger.open"] as const)
        expect(await service.ask(name, { path })).toMatchObject({
          ok: false,
          failure: { code: "storage", message: expect.stringMatching(/\d+ pages are pending in the log/) as string },
        });
      expect(await service.ask("ledger.verify", {})).toMatchObject({ ok: false });
    } finally {
      await service.close();
      chmodSync(folder, 0o755);
    }
    expect(heldIn(path)).toEqual(upTo(10));
  });
});
