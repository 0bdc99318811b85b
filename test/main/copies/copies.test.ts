/** Kept copies through the service and the command line: made, looked at, gone back to, after whatever became of the ledger. */
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import Sqlite from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Input, OperationName, Output } from "../../../app/contract/contract.ts";
import type { KeptCopies, KeptCopy } from "../../../app/copies/kept-copy.ts";
import { openLedger } from "../../../db/ledger.ts";
import { revisionIn } from "../../../db/read-only-copy.ts";
import { keepCopies } from "../../../main/copies/keep-copies.ts";
import { run } from "../cli/terminal.ts";
import { startTestService, type TestService } from "../service/test-service.ts";

let rig: TestService;
let home: string;
beforeEach(() => {
  rig = startTestService();
  home = mkdtempSync(join(tmpdir(), "coldstock-home-"));
  vi.stubEnv("COLDSTOCK_HOME", home);
});
afterEach(async () => {
  await rig.end();
  vi.unstubAllEnvs();
  rmSync(home, { recursive: true, force: true });
});

const ask = async <N extends OperationName>(name: N, input: Input<N>): Promise<Output<N>> => {
  const reply = await rig.service.call(name, input);
  if (!reply.ok) throw new Error(`${reply.failure.code}: ${reply.failure.message}`);
  return reply.value;
};

const moveAFlight = async (): Promise<string> => {
  const { plan } = await ask("plan.view", { planCaseId: "baseline" });
  const flight = plan.flights.find(({ status }) => status === "planned")!;
  const day = 86_400_000;
  const value = { ...flight, departAt: flight.departAt + day, arriveAt: flight.arriveAt + day };
  await ask("plan.edit", { label: "Move", reason: "", changes: [{ op: "put", kind: "flight", value }] });
  return flight.name;
};

describe("a named state", () => {
  it("is shown with what going back would change, and gone back to whole", async () => {
    await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
    const before = await ask("ledger.export", {});
    const copy = await ask("copies.keep", { name: "Before the replan" });
    expect(copy).toMatchObject({ kind: "point", name: "Before the replan" });
    const { folder } = await ask("copies.list", {});
    expect(statSync(folder).mode & 0o777).toBe(0o700);
    expect(statSync(join(folder, copy.id)).mode & 0o777).toBe(0o600);

    expect(await ask("copies.look", { copyId: copy.id })).toMatchObject({ isNothing: true, editsSince: 0, cases: [] });
    const name = await moveAFlight();
    await ask("ledger.asOf", { asOfAt: Date.UTC(2031, 4, 1) });
    const view = await ask("copies.look", { copyId: copy.id });
    expect(view).toMatchObject({ isNothing: false, editsSince: 2, entries: { gone: 0, back: 0, changed: 0 } });
    expect(view.cases).toMatchObject([{ change: "changes", flights: 1, sorties: 0 }]);
    expect(view.cases[0]?.words[0]).toMatch(new RegExp(`^${name} departs .*, 1\\sday earlier`));

    const after = await ask("ledger.export", {});
    await ask("copies.goBack", { copyId: copy.id, revision: view.revision });
    expect(await ask("ledger.export", {})).toEqual(before);
    // The number of a state that was never comes again: what was computed of it would be taken for an answer.
    expect((await ask("ledger.info", {})).revision).toBeGreaterThan(view.revision);
    expect(await ask("ledger.verify", {})).toMatchObject({ isSound: true });
    expect((await ask("ledger.info", {})).readOnlyBecause).toBeNull();

    // And forward again, to the state that was kept by itself.
    const forward = (await ask("copies.list", {})).copies.find((each) => each.name.startsWith("Before going back"))!;
    const there = await ask("copies.look", { copyId: forward.id });
    expect(there.editsSince).toBeNull();
    await ask("copies.goBack", { copyId: forward.id, revision: there.revision });
    expect(await ask("ledger.export", {})).toEqual(after);
    expect(readdirSync(rig.folder).filter((each) => /draft|aside|log-of/.test(each))).toEqual([]);
  });

  it("is not gone back to when an edit came since it was looked at", async () => {
    await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
    const { id: copyId } = await ask("copies.keep", { name: "Now" });
    await moveAFlight();
    const { revision } = await ask("copies.look", { copyId });
    await moveAFlight();
    const reply = await rig.service.call("copies.goBack", { copyId, revision });
    expect(reply).toMatchObject({
      ok: false,
      failure: { code: "refused", message: expect.stringMatching(/look at it again/) },
    });
  });

  it.each(["../../etc/passwd", "point 2031-06-01 000000 None.coldstock", ""])("%j is no copy", async (copyId) => {
    await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
    expect(await rig.service.call("copies.look", { copyId })).toMatchObject({ ok: false });
  });

  it("that was spoiled on the disk is not gone back to, and the ledger stays", async () => {
    await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
    const copy = await ask("copies.keep", { name: "Spoiled" });
    const { folder } = await ask("copies.list", {});
    const db = new Sqlite(join(folder, copy.id));
    for (const trigger of db.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'").pluck().all())
      db.exec(`DROP TRIGGER "${String(trigger)}"`);
    db.exec("UPDATE entry SET note = note || '!' WHERE no = 1");
    db.close();
    await moveAFlight();
    const before = await ask("ledger.export", {});
    const { revision } = await ask("ledger.info", {});
    const reply = await rig.service.call("copies.goBack", { copyId: copy.id, revision });
    expect(reply).toMatchObject({ ok: false, failure: { message: expect.stringMatching(/copy is not sound/) } });
    expect(await ask("ledger.export", {})).toEqual(before);
    await moveAFlight();
  });
});

describe("a ledger that cannot be opened, on the command line", () => {
  const prepare = async (): Promise<string> => {
    const path = rig.path("tarn");
    expect((await run("demo", "tarn", path)).status).toBe(0);
    expect((await run("copies", path)).out).toMatch(/No copies are kept of tarn\.coldstock/);
    expect(await run("copies", path, "--keep", "Good")).toMatchObject({
      status: 0,
      out: expect.stringMatching(/Good/),
    });
    return path;
  };

  it.each([
    ["cut short", (path: string) => truncateSync(path, 5000)],
    ["a text", (path: string) => writeFileSync(path, "propellant,mass\n")],
  ])("%s: the copy takes its place, and it is kept beside", async (_what, spoil) => {
    const path = await prepare();
    spoil(path);
    const size = statSync(path).size;
    const asked = await run("restore", path, "Good");
    expect(asked).toMatchObject({ status: 1, out: expect.stringMatching(/cannot be opened/) });
    expect(statSync(path).size).toBe(size);
    expect((await run("restore", path, "Good", "--replace")).status).toBe(0);
    expect((await run("verify", path)).status).toBe(0);
    expect(statSync(`${path}.put-aside`).size).toBe(size);
  });

  it("deleted, with the log of a crash left behind: the log is not read into the copy", async () => {
    const path = await prepare();
    const store = openLedger(path);
    const tank = store.entities().tank[0]!;
    store.commit({
      label: "Rename",
      reason: "",
      author: "tester",
      recordedAt: 0,
      changes: [{ op: "put", kind: "tank", value: { ...tank, name: "Renamed" } }],
      entries: [],
      readings: [],
      withdrawnReadingIds: [],
      reversedEntryIds: [],
    });
    // As a crash leaves it: the log is there, the program is not.
    const log = `${path}-wal`;
    const held = new Sqlite(path, { readonly: true });
    held.prepare("SELECT 1 FROM ledger").get();
    store.close();
    expect(statSync(log).size).toBeGreaterThan(0);
    rmSync(path);
    expect((await run("restore", path, "Good", "--replace")).status).toBe(0);
    held.close();
    const again = openLedger(path);
    expect(again.entities().tank.some(({ name }) => name === "Renamed")).toBe(false);
    expect(again.verify()).toMatchObject({ isSound: true });
    again.close();
  });

  it("that can be opened is looked at, and gone back to with --replace", async () => {
    const path = await prepare();
    const looked = await run("restore", path, "Good");
    expect(looked).toMatchObject({ status: 0, out: expect.stringMatching(/would change nothing/) });
    expect((await run("restore", path, "Better")).err).toMatch(/There is no copy “Better”. There are: Good/);
    expect((await run("restore", path, "Good", "--replace")).status).toBe(0);
    expect(existsSync(`${path}.put-aside`)).toBe(false);
  });
});

describe("the copy of the day", () => {
  const at = Date.UTC(2031, 5, 1, 8);
  const day = 86_400_000;

  it("is made once a day on which something changed, seven and one a month are kept, and named ones all", async () => {
    await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
    await ask("ledger.copy", { path: rig.path("own") });
    const store = openLedger(rig.path("own"));
    const keeper = keepCopies(() => home, revisionIn);
    const date = (n: number) => store.commit({ ...step, asOfAt: at + n * day });
    const step = {
      label: "As-of",
      reason: "",
      author: "tester",
      recordedAt: at,
      changes: [],
      entries: [],
      readings: [],
      withdrawnReadingIds: [],
      reversedEntryIds: [],
    };
    await keeper.keep(store, "Begin", at);
    for (let n = 0; n < 40; n += 1) {
      if (n % 4 !== 3) date(n);
      await keeper.daily(store, at + n * day);
      await keeper.daily(store, at + n * day + 1000);
      const { folder, copies } = keeper.list(store.header().path);
      // What lies in a folder is told apart by when it was made.
      const made = copies.find(({ name }) => name === new Date(at + n * day).toISOString().slice(0, 10));
      if (made !== undefined) utimesSync(join(folder, made.id), (at + n * day) / 1000, (at + n * day) / 1000);
    }
    const { copies, fault } = keeper.list(store.header().path);
    expect(fault).toBeNull();
    const days = copies.filter(({ kind }) => kind === "day").map(({ name }) => name);
    // Days 3, 7, 11 … changed nothing.
    expect(days).toEqual([38, 37, 36, 34, 33, 32, 30, 0].map((n) => new Date(at + n * day).toISOString().slice(0, 10)));
    expect(copies.filter(({ kind }) => kind === "point").map(({ name }) => name)).toEqual(["Begin"]);
    store.close();
  });

  it("that cannot be made is told, with why, and does not stop the work", async () => {
    await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
    const blocked = join(home, "blocked");
    writeFileSync(blocked, "");
    const keeper = keepCopies(() => blocked, revisionIn);
    await ask("ledger.copy", { path: rig.path("own") });
    const store = openLedger(rig.path("own"));
    await keeper.daily(store, at);
    expect(keeper.list(store.header().path).fault).toMatch(/^[A-Z].*\.$/);
    store.close();
  });

  it("is of one state of the ledger although edits go on while it is made", async () => {
    await ask("ledger.demo", { path: rig.path("tarn"), which: "tarn" });
    const kept = ask("copies.keep", { name: "While editing" });
    for (let n = 0; n < 5; n += 1) await moveAFlight();
    const copy = await kept;
    const { folder } = await ask("copies.list", {});
    expect((await run("verify", join(folder, copy.id))).status).toBe(0);
    expect(basename(copy.id)).toBe(copy.id);
  });
});

describe("a command that edits", () => {
  const prepare = async (): Promise<string> => {
    const path = rig.path("tarn");
    expect((await run("demo", "tarn", path)).status).toBe(0);
    return path;
  };
  const kept = async (path: string): Promise<readonly KeptCopy[]> =>
    (JSON.parse((await run("copies", path, "--json")).out) as KeptCopies).copies;

  it("first makes the day's copy, of the ledger as it was before it, and once a day", async () => {
    const path = await prepare();
    const before = (await run("export", path)).out;
    // Looking at a ledger is no edit.
    await run("check", path);
    expect(await kept(path)).toEqual([]);
    expect((await run("as-of", path, "2031-05-01")).status).toBe(0);
    expect(await kept(path)).toMatchObject([{ kind: "day", name: new Date().toISOString().slice(0, 10) }]);
    expect((await run("as-of", path, "2031-05-02")).status).toBe(0);
    const [copy, ...more] = await kept(path);
    expect(more).toEqual([]);
    const { folder } = JSON.parse((await run("copies", path, "--json")).out) as KeptCopies;
    const held = await run("export", join(folder, copy?.id ?? ""));
    expect(JSON.parse(held.out)).toEqual(JSON.parse(before));
  });

  it("is done where no copy can be made, and says why there is none", async () => {
    const path = await prepare();
    const blocked = join(home, "blocked");
    writeFileSync(blocked, "");
    vi.stubEnv("COLDSTOCK_HOME", blocked);
    const done = await run("as-of", path, "2031-05-01");
    expect(done.status).toBe(0);
    expect(done.out).toMatch(/stands as of 2031-05-01/);
    expect(done.err).toMatch(/changed without a copy of the day\. The folder for ledgers.*cannot be used/);
    expect((await run("verify", path)).status).toBe(0);
  });
});
