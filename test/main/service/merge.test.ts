/** Merging two real ledger files through the service and on the command line: one is written, the other only read. */
import { createHash } from "node:crypto";
import { copyFileSync, readFileSync, readdirSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import type { Input, OperationName } from "../../../app/contract/contract.ts";
import { documentText } from "../../../app/exchange/ledger-document.ts";
import type { MergeView } from "../../../app/merge/merge-view.ts";
import { run } from "../cli/terminal.ts";
import { startTestService, type TestService } from "./test-service.ts";

let test: TestService;
beforeEach(async () => {
  test = startTestService();
  await must("ledger.demo", { path: test.path("north"), which: "tarn" });
  // Another one open, so that the file is closed and whole.
  await must("ledger.create", { path: test.path("aside"), programme: "Aside" });
  copyFileSync(test.path("north"), test.path("south"));
});
afterEach(() => test.end());

const must = async <N extends OperationName>(name: N, input: Input<N>) => {
  const reply = await test.service.call(name, input);
  if (!reply.ok) throw new Error(`${name}: ${reply.failure.message}`);
  return reply.value;
};
const hashOf = (path: string): string => createHash("sha256").update(readFileSync(path)).digest("hex");
const day = 86_400_000;

/** When the demonstration's records end. */
const RECORDED_UNTIL = Date.UTC(2031, 5, 1);

/** A gauge reading of Tarn's first tank, `days` after the demonstration's last record. */
const gauge = async (id: string, days: number, massKg: number): Promise<void> => {
  const { entities } = await must("ledger.export", {});
  const tankId = entities.tank.find((row) => row.ownerKind === "depot")?.id ?? "";
  await must("record.reading", {
    id,
    tankId,
    at: RECORDED_UNTIL + days * day,
    massKg,
    sigmaKg: 20,
    takeIntoBooks: true,
    note: "",
  });
};

/** North reads a gauge on day 2; south on days 1 and 2, the latter otherwise. */
const twoSites = async (): Promise<void> => {
  await must("ledger.open", { path: test.path("south") });
  await gauge("south-1", 1, 900);
  await gauge("south-2", 2, 890);
  await must("ledger.open", { path: test.path("north") });
  await gauge("north-2", 2, 895);
};

const preview = (decisions: Input<"merge.preview">["decisions"] = [], name = "south"): Promise<MergeView> =>
  must("merge.preview", { path: test.path(name), decisions, takeCases: [] });

it("brings the other file's records in, leaves it untouched to the byte, and the books are sound", async () => {
  await twoSites();
  const before = { hash: hashOf(test.path("south")), beside: readdirSync(test.folder).toSorted() };
  const open = await preview();
  expect(open).toMatchObject({ conflicts: [{ bothWords: expect.any(String) as string }], fileName: "south.coldstock" });
  expect(open.undecided).toHaveLength(1);
  const decisions = open.conflicts.map(({ id: conflictId }) => ({ conflictId, choice: "take theirs" as const }));
  const { fingerprint } = await preview(decisions);
  const info = await must("merge.take", { path: test.path("south"), decisions, takeCases: [], fingerprint });
  expect(info.undoLabel).toBe("Merge records of south.coldstock");
  expect(await must("ledger.verify", {})).toMatchObject({ isSound: true, faults: [] });
  expect((await preview()).outcome.isNothing).toBe(true);
  expect({ hash: hashOf(test.path("south")), beside: readdirSync(test.folder).toSorted() }).toEqual(before);
  await must("plan.undo", {});
  const { readings } = await must("ledger.export", {});
  expect(readings.filter(({ id }) => id.startsWith("south"))).toEqual([]);
  expect(await must("ledger.verify", {})).toMatchObject({ isSound: true });
});

it("writes nothing while a conflict is open, or when one of the two changed since it was looked at", async () => {
  await twoSites();
  const { fingerprint, conflicts } = await preview();
  const choices = { path: test.path("south"), takeCases: [], fingerprint };
  const { revision } = await must("ledger.info", {});
  expect(await test.service.call("merge.take", { ...choices, decisions: [] })).toMatchObject({
    ok: false,
    failure: { code: "refused", message: expect.stringMatching(/is not decided yet/) as string },
  });
  const decisions = conflicts.map(({ id: conflictId }) => ({ conflictId, choice: "keep ours" as const }));
  await gauge("north-3", 3, 880);
  expect(await test.service.call("merge.take", { ...choices, decisions })).toMatchObject({
    ok: false,
    failure: { code: "refused", message: expect.stringMatching(/changed since this was looked at/) as string },
  });
  expect((await must("ledger.info", {})).revision).toBe(revision + 1);
});

it("takes an exported document for the ledger it was exported from", async () => {
  await twoSites();
  await must("ledger.open", { path: test.path("south") });
  writeFileSync(join(test.folder, "south.json"), documentText(await must("ledger.export", {})));
  await must("ledger.open", { path: test.path("north") });
  const fromFile = await preview();
  const fromText = await must("merge.preview", { path: join(test.folder, "south.json"), decisions: [], takeCases: [] });
  expect({ ...fromText, fileName: "" }).toEqual({ ...fromFile, fileName: "" });
});

it("reads a ledger of an older form, and one that another program has open, without touching them", async () => {
  const old = test.path("old");
  copyFileSync(join(import.meta.dirname, "../../db/released/form-20.coldstock"), old);
  const before = hashOf(old);
  await must("ledger.open", { path: test.path("north") });
  // A demonstration of an earlier version of the program: the same beginning.
  expect((await preview([], "old")).alike).toBeGreaterThan(0);
  expect(hashOf(old)).toBe(before);
  const other = startTestService();
  await other.service.call("ledger.open", { path: test.path("south") });
  expect(await preview()).toMatchObject({ incomingCount: 0, conflicts: [] });
  await other.end();
});

const unusable = [
  { name: "damaged", make: (path: string) => truncateSync(path, 5000), says: /cut short|damaged|not a ledger/ },
  { name: "no ledger", make: (path: string) => writeFileSync(path, "flight,mass\n"), says: /not a ledger/ },
  {
    name: "newer",
    make: (path: string) => {
      const bytes = readFileSync(path);
      bytes.writeUInt32BE(990, 60);
      writeFileSync(path, bytes);
    },
    says: /newer version/,
  },
] as const;

it.each(unusable)("refuses a file that is $name, untouched", async ({ make, says }) => {
  make(test.path("south"));
  const before = { hash: hashOf(test.path("south")), beside: readdirSync(test.folder).toSorted() };
  await must("ledger.open", { path: test.path("north") });
  const beside = readdirSync(test.folder).toSorted();
  const reply = await test.service.call("merge.preview", { path: test.path("south"), decisions: [], takeCases: [] });
  expect(reply).toMatchObject({ ok: false, failure: { message: expect.stringMatching(says) as string } });
  expect(hashOf(test.path("south"))).toBe(before.hash);
  expect(readdirSync(test.folder).toSorted()).toEqual(beside);
});

it("refuses the ledger that is open itself", async () => {
  await must("ledger.open", { path: test.path("north") });
  const reply = await test.service.call("merge.preview", { path: test.path("north"), decisions: [], takeCases: [] });
  expect(reply).toMatchObject({ ok: false, failure: { message: expect.stringMatching(/which is open/) as string } });
});

it("is 1 on the command line while a conflict is open, and 0 once all are decided alike", async () => {
  await twoSites();
  await must("ledger.open", { path: test.path("aside") });
  const [north, south] = [test.path("north"), test.path("south")];
  const open = await run("merge", north, south);
  expect(open).toMatchObject({ status: 1, err: "" });
  expect(open.out).toMatch(/not decided/);
  expect(open.out).toMatch(/ours 895\.000 kg, theirs 890\.000 kg, difference -5\.000 kg/);
  expect(open.out).toMatch(/Nothing was written\. It would be:/);
  const dry = await run("merge", north, south, "--conflicts", "theirs", "--dry-run", "--json");
  expect(JSON.parse(dry.out)).toMatchObject({ isWritten: false, undecided: [] });
  expect(dry.status).toBe(0);
  const taken = await run("merge", north, south, "--conflicts", "theirs");
  expect(taken).toMatchObject({ status: 0, err: "" });
  expect(taken.out).toMatch(/Written:\n {2}2 journal entries of theirs are written\./);
  expect((await run("merge", north, south)).out).toMatch(/Nothing to do/);
  expect((await run("verify", north)).status).toBe(0);
  expect((await run("merge", north, south, "--conflicts", "both")).status).toBe(2);
});
